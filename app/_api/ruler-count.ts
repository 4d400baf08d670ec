import { z } from 'zod'
import { weaves } from '#lib/cloth/cloth-piece'
import { readingsFields } from './cloth-pieces'
import { operation } from './operation'
import { countSchema } from './quantities'

const waySchema = z
  .strictObject({
    count: countSchema,
    perInch: z.number(),
    perTenCm: z.number(),
    leastPerInch: z.number(),
    mostPerInch: z.number(),
    givePerInch: z.number().meta({ description: 'What a ruler leaves open: half a thread in every length.' }),
    isApart: z.boolean().meta({ description: 'Two readings that differ by more than they should: count a third.' }),
    countAgain: z.array(z.int()).meta({ description: 'Which readings lie far from the others, counted from 0.' }),
  })
  .meta({ id: 'CountedWay', description: 'The mean is all that was counted in all the length, as an exact ratio.' })

const inch = 25_400

export const calculateRulerCount = operation({
  method: 'post',
  path: '/calculate/ruler-count',
  id: 'calculateRulerCount',
  right: 'read',
  group: 'Calculators',
  summary: 'What unmarked cloth counts, from readings along a ruler',
  description:
    'Count both ways, in three places each, away from the selvedge. The answer says how far the readings lie apart, whether the cloth is square, and what it is most likely sold as. Uses no stored data.',
  body: z.strictObject({ ...readingsFields, weave: z.enum(weaves).default('single') }).meta({ id: 'RulerCountRequest' }),
  answer: z
    .strictObject({
      ends: waySchema,
      picks: waySchema,
      countText: z.string(),
      unevenPercent: z.number(),
      squareness: z.enum(['square', 'open', 'uneven']).meta({
        description: '`open`: the two ways differ by no more than a ruler leaves open.',
      }),
      nominal: z.int().meta({ description: 'The count it is most likely sold as. Not to be cut by.' }),
      certainty: z.literal('measured'),
    })
    .meta({ id: 'RulerCountAnswer' }),
  answerMeans: 'The count both ways.',
  example: {
    body: {
      across: [{ threads: 64, lengthUm: 2 * inch }],
      up: [{ threads: 61, lengthUm: 2 * inch }],
    },
    answer: {
      ends: {
        ...{ count: { threads: 32, perUm: inch }, perInch: 32, perTenCm: 125.984 },
        ...{ leastPerInch: 32, mostPerInch: 32, givePerInch: 0.25, isApart: false, countAgain: [] },
      },
      picks: {
        ...{ count: { threads: 61, perUm: 2 * inch }, perInch: 30.5, perTenCm: 120.079 },
        ...{ leastPerInch: 30.5, mostPerInch: 30.5, givePerInch: 0.25, isApart: false, countAgain: [] },
      },
      ...{ countText: '32 × 30.5 count', unevenPercent: 4.918, squareness: 'uneven', nominal: 32, certainty: 'measured' },
    },
  },
})
