import { z } from 'zod'
import { weaves } from '#lib/cloth/cloth-piece'
import { ownerIdsField, ownerQuery } from './collection'
import { operation } from './operation'
import { orNull } from './quantities'

const meanSchema = orNull(z.strictObject({ amount: z.int(), weeks: z.int() })).meta({
  description: 'So many stitches in so many weeks; null where nothing was stitched.',
})
const months = z.array(
  z.strictObject({
    month: z.string().meta({ description: 'yyyy-mm' }),
    in: z.number().meta({ description: 'Received, or come from another owner.' }),
    out: z.number().meta({ description: 'Used up, or passed on to another owner.' }),
    otherwise: z.number().meta({ description: 'Counted right, cut, taken back: gained and lost together.' }),
  }),
)

const plotsSchema = z
  .strictObject({
    ownerIds: ownerIdsField,
    pace: z.strictObject({
      weeks: z
        .array(z.strictObject({ startsOn: z.string(), amount: z.int(), minutes: z.int(), isAway: z.boolean() }))
        .meta({ description: 'Whole weeks of the last half year, the earliest first; amounts in stitches.' }),
      isPartial: z.boolean().meta({ description: 'Only the week under way is logged.' }),
      thisWeek: z.int(),
      means: z.strictObject({ stitchedWeeks: meanSchema, allWeeks: meanSchema }),
    }),
    stash: z.strictObject({ thread: months, cloth: months, charts: months }).meta({
      description: 'The last twelve months: put-ups of thread, a part as its share; pieces of cloth; copies of charts.',
    }),
    seasons: z.array(
      z.strictObject({
        seasonId: z.string().nullable(),
        name: z.string().nullable().meta({ description: 'Null for the designs of no season.' }),
        designs: z.int(),
        now: z.int(),
        near: z.int().meta({ description: 'At most two put-ups to buy.' }),
        far: z.int(),
        unknown: z.int().meta({ description: 'Without a thread list.' }),
      }),
    ),
    cloth: z.array(
      z.strictObject({
        weave: z.enum(weaves),
        label: z.string().meta({ description: 'Threads or blocks to the inch.' }),
        pieces: z.int(),
        areaUm2: z.number(),
        areaUm2By: z
          .strictObject({ measured: z.number(), label: z.number(), guess: z.number(), stale: z.number() })
          .meta({ description: 'By how the counts are known; `stale`: washed since it was counted.' }),
      }),
    ),
    out: z.array(
      z.strictObject({
        upToDays: z.union([z.int(), z.literal('unknown'), z.null()]).meta({
          description: 'Null: longer than a year. `unknown`: nobody wrote down since when.',
        }),
        ...{ total: z.int(), thread: z.int(), cloth: z.int(), chart: z.int(), notion: z.int() },
      }),
    ),
  })
  .meta({ id: 'Plots' })

export const plotsOperation = operation({
  method: 'get',
  path: '/plots',
  id: 'getPlots',
  group: 'Projects',
  summary: 'The numbers behind the pictures: pace, stash in and out, cover by season, cloth by count, what is out',
  query: z.strictObject(ownerQuery),
  answer: plotsSchema,
  answerMeans: 'As they are today.',
  example: {
    answer: {
      ownerIds: ['o1'],
      pace: {
        weeks: [{ startsOn: '2026-08-31', amount: 2_330, minutes: 1_420, isAway: false }],
        ...{ isPartial: false, thisWeek: 310 },
        means: { stitchedWeeks: { amount: 2_330, weeks: 1 }, allWeeks: { amount: 2_330, weeks: 1 } },
      },
      stash: { thread: [{ month: '2026-09', in: 6, out: 1.5, otherwise: 0 }], cloth: [], charts: [] },
      seasons: [{ seasonId: 's1', name: 'Winter', designs: 12, now: 3, near: 4, far: 4, unknown: 1 }],
      cloth: [
        {
          ...{ weave: 'single', label: '28', pieces: 1, areaUm2: 312_000_000_000 },
          areaUm2By: { measured: 312_000_000_000, label: 0, guess: 0, stale: 0 },
        },
      ],
      out: [{ upToDays: 7, total: 2, thread: 1, cloth: 0, chart: 1, notion: 0 }],
    },
  },
})
