import { z } from 'zod'
import { leftoverHows } from '#lib/project/plan-finish'
import { ownerIdsField, ownerQuery } from './collection'
import { threadRefSchema } from './cover'
import { operation } from './operation'
import { nextField, pageQuery } from './paging'
import { idText, orNull, strandTenths } from './quantities'

/** What is left of a thread when a project is finished, by length or by weight. */
export const leftoversSchema = z
  .array(
    z.discriminatedUnion('how', [
      z.strictObject({ threadId: idText, how: z.literal('measured'), strandTenths }),
      z.strictObject({ threadId: idText, how: z.literal('weighed'), milligrams: z.int().min(0).max(100_000_000) }),
    ]),
  )
  .max(2_000)
  .refine((leftovers) => new Set(leftovers.map(({ threadId }) => threadId)).size === leftovers.length, {
    message: 'A thread is named twice.',
    params: { accepted: 'each thread once' },
  })
  .meta({
    description:
      'What is left in the bag of a thread, measured or weighed without band, card or bobbin; it comes before `used`. Weighing needs the weight of a full put-up of the line. One’s own allowance is learnt from these.',
  })

const learntSchema = z
  .strictObject({
    factor: z.number().meta({ description: 'The middle one of the readings, to the nearest hundredth.' }),
    least: z.number(),
    most: z.number(),
    lowerQuarter: z.number().meta({ description: 'The middle half of the readings lies between this and `upperQuarter`.' }),
    upperQuarter: z.number(),
    colourCount: z.int(),
    pieceCount: z.int(),
  })
  .meta({ id: 'LearntAllowance' })

export const getAllowance = operation({
  method: 'get',
  path: '/allowance',
  id: 'getAllowance',
  group: 'Stock',
  summary: 'The allowance for thread, and one’s own by what finished pieces took',
  description:
    'Each reading is one colour of a finished piece whose leftover was measured or weighed and whose key counts its stitches. Its factor is (used − flat) ÷ plain. What is learnt is offered, never used unasked.',
  query: z.strictObject({ ...ownerQuery, ...pageQuery }),
  answer: z
    .strictObject({
      ownerIds: ownerIdsField,
      allowance: z.number().meta({ description: 'What designs without an allowance of their own are reckoned with.' }),
      learnt: orNull(learntSchema).meta({ description: 'Null under three readings that can be true.' }),
      readingCount: z.int(),
      readings: z.array(
        z.strictObject({
          readingId: z.string(),
          projectId: z.string(),
          title: z.string(),
          finishedOn: z.string().nullable(),
          thread: threadRefSchema,
          how: z.enum(leftoverHows),
          usedStrandTenths: z.int(),
          plainStrandTenths: z.int().meta({ description: 'The geometry alone, before any allowance.' }),
          flatStrandTenths: z.int().meta({ description: 'Knots and beads’ passes, which no allowance is on.' }),
          factor: z.number(),
        }),
      ),
      next: nextField,
    })
    .meta({ id: 'Allowance' }),
  answerMeans: 'The allowance, what is learnt, and a page of the readings, the latest first.',
  example: {
    answer: {
      ownerIds: ['o1'],
      allowance: 1.5,
      learnt: { factor: 1.42, least: 1.31, most: 1.55, lowerQuarter: 1.38, upperQuarter: 1.46, colourCount: 6, pieceCount: 3 },
      readingCount: 6,
      readings: [
        {
          readingId: 'r6',
          projectId: 'pr3',
          title: 'Rook Hill in Snow',
          finishedOn: '2026-11-20',
          thread: { threadId: 't1', maker: 'Larkholm', line: 'Stranded cotton', code: '0017', name: 'Rook Grey' },
          how: 'weighed',
          usedStrandTenths: 731_437,
          plainStrandTenths: 515_097,
          flatStrandTenths: 0,
          factor: 1.42,
        },
      ],
      next: null,
    },
  },
})
