import { z } from 'zod'
import example from './examples/calculate-yardage.json'
import { operation } from './operation'
import { idText, lengthUm, orNull, sideUm } from './quantities'

const boltSchema = z
  .strictObject({
    widthUm: z.int().min(100_000).max(5_000_000).default(1_397_000),
    selvedgeUm: z.int().min(0).max(49_999).default(12_700),
    straighteningUm: z.int().min(0).max(500_000).default(25_400),
    stepUm: z.int().min(1_000).max(2_000_000).default(114_300),
  })
  .meta({
    id: 'Bolt',
    description:
      'Cloth as it is sold: 55 in wide with 1/2 in of selvedge, 1 in lost in straightening, in eighths of a yard, unless said.',
  })

export const boltBoxSchema = z
  .strictObject({
    id: z.string(),
    xUm: z.int(),
    yUm: z.int(),
    widthUm: z.int(),
    heightUm: z.int(),
    isTurned: z.boolean(),
  })
  .meta({ id: 'BoltBox', description: 'From the lower left corner inside the selvedge, y along the bolt.' })

const stripPlanSchema = z.strictObject({
  strips: z.array(z.strictObject({ isTurned: z.boolean(), across: z.int(), rows: z.int() })),
  lengthUm: z.int().meta({ description: 'Without straightening.' }),
  toBuyUm: z.int(),
  gives: z.int(),
})

export const calculateYardage = operation({
  method: 'post',
  path: '/calculate/yardage',
  id: 'calculateYardage',
  right: 'read',
  group: 'Calculators',
  summary: 'How much cloth to buy off the bolt for so many pieces',
  description:
    'The shortest length in the shop’s steps from which all can be cut from edge to edge. For one size the rows, upright, turned and mixed, are given beside it; several sizes are laid out together. `pieces` are asked how many of the first size come out of each. Uses no stored data.',
  body: z
    .strictObject({
      items: z
        .array(
          z.strictObject({
            id: idText,
            widthUm: sideUm.meta({ description: 'As it is cut, along the weft.' }),
            heightUm: sideUm,
            copies: z.int().min(1).max(9_999),
            mayTurn: z.boolean().default(true),
          }),
        )
        .min(1)
        .max(12)
        .refine((items) => new Set(items.map(({ id }) => id)).size === items.length, {
          message: 'Two of them have the same id.',
          params: { accepted: 'an id of its own for each' },
        }),
      bolt: boltSchema.prefault({}),
      gapUm: z.int().min(0).max(50_000).default(0).meta({ description: 'Cloth lost along each cut.' }),
      pieces: z
        .array(
          z.strictObject({
            id: idText,
            widthUm: lengthUm.min(1),
            heightUm: lengthUm.min(1),
            isTurnable: z.boolean().default(true),
          }),
        )
        .max(50)
        .default([]),
    })
    .meta({ id: 'YardageRequest' }),
  answer: z
    .strictObject({
      usableWidthUm: z.int(),
      toBuyUm: z.int().nullable().meta({ description: 'Null when some size is wider than the cloth.' }),
      text: z.string(),
      gives: z.int().nullable().meta({ description: 'How many of one size the length gives; null for several sizes.' }),
      isProved: z.boolean().meta({ description: 'One step less is too short, however it is cut from edge to edge.' }),
      boxes: z.array(boltBoxSchema),
      upright: orNull(stripPlanSchema),
      turned: orNull(stripPlanSchema),
      mixed: orNull(stripPlanSchema),
      fromPieces: z.array(z.strictObject({ id: z.string(), gives: z.int(), isProved: z.boolean() })),
    })
    .meta({ id: 'YardageAnswer' }),
  answerMeans: 'The length to buy, how all lie on it, and what each posted piece gives.',
  example,
})
