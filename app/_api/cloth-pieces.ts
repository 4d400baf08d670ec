import { z } from 'zod'
import { bleedTests } from '#lib/cloth/care'
import { clothDyeings, oneWayReasons, washStates, weaves } from '#lib/cloth/cloth-piece'
import { longestRuledUm, mostReadings, mostThreads, shortestRuledUm } from '#lib/cloth/ruler-count'
import { sizeCertainties } from '#lib/db/cloth/add-cloth'
import { type placeRefSchema, whereaboutsFields } from './collection'
import { labSchema } from './colour'
import { operation } from './operation'
import {
  countSchema,
  dateText,
  idText,
  noteText,
  orNull,
  pieceCountFields,
  readPieceCount,
  shortText,
  sideUm,
} from './quantities'

export const rulerReadings = z
  .array(
    z.strictObject({
      threads: z
        .number()
        .min(0.5)
        .max(mostThreads)
        .multipleOf(0.5)
        .meta({ description: 'Whole or half threads; blocks of block cloth.' }),
      lengthUm: z.int().min(shortestRuledUm).max(longestRuledUm).meta({ description: 'The ruled length.' }),
    }),
  )
  .min(1)
  .max(mostReadings)

export const readingsFields = {
  across: rulerReadings.meta({ description: 'Counted going sideways, along the weft.' }),
  up: rulerReadings.meta({ description: 'Counted going up, along the selvedge.' }),
  unit: z
    .enum(['in', 'cm'])
    .default('in')
    .meta({ description: 'What the ruler is marked in: a count is written to the inch or to 10 cm by it.' }),
}

const careFields = {
  countCertainty: z.enum(sizeCertainties).meta({ description: 'How its count is known.' }),
  isTurnable: z.boolean(),
  oneWayBecause: orNull(z.enum(oneWayReasons)).meta({
    description: 'Why it may not be turned; null where nobody said, or it may.',
  }),
  dyeing: orNull(z.enum(clothDyeings)),
  washState: z.enum(washStates).meta({ description: '`never`: not to be washed.' }),
  washedOn: orNull(dateText),
}

const pieceSchema = z
  .strictObject({
    clothPieceId: z.string(),
    version: z.int().meta({ description: 'Hand it back with a change, to be told when somebody else changed the piece first.' }),
    ownerId: z.string(),
    label: z.string().nullable(),
    makerName: z.string().nullable(),
    name: z.string(),
    colourName: z.string().nullable(),
    lab: orNull(labSchema),
    weave: z.enum(weaves),
    ends: countSchema,
    picks: countSchema,
    countText: z.string(),
    isCountStale: z.boolean().meta({ description: 'It was washed since its threads were counted: count them again.' }),
    widthUm: z.int(),
    heightUm: z.int(),
    sizeText: z.string(),
    isSquared: z.boolean(),
    sizeCertainty: z.enum(sizeCertainties),
    ...careFields,
    bleedTest: orNull(z.enum(bleedTests)).meta({ description: 'The last test wet on white. A pass is no guarantee.' }),
    bleedTestedOn: orNull(dateText),
    care: z
      .array(z.strictObject({ kind: z.string(), text: z.string() }))
      .meta({ description: 'What to mind with it, the gravest first.' }),
    note: z.string().nullable(),
    isGone: z.boolean(),
    parent: orNull(z.strictObject({ clothPieceId: z.string(), label: z.string().nullable() })),
    reservedBy: z.array(z.strictObject({ projectId: z.string(), title: z.string() })),
    ...whereaboutsFields,
  })
  .meta({ id: 'ClothPieceDetail' })

const inch = 25_400
const home: z.infer<typeof placeRefSchema> = { placeId: 'p7', label: 'C3' }
const examplePiece: z.input<typeof pieceSchema> = {
  ...{ clothPieceId: 'c1', version: 3, ownerId: 'o1', label: 'L-01', makerName: 'Harrowmere Looms', name: 'Harrowmere Linen' },
  ...{ colourName: 'Antique White', lab: { L: 91, a: 0.5, b: 7 }, weave: 'single' },
  ...{ ends: { threads: 32, perUm: inch }, picks: { threads: 61, perUm: 2 * inch }, countText: '32 × 30.5 count' },
  ...{ isCountStale: false, widthUm: 18 * inch, heightUm: 673_100, sizeText: '18 × 26½ in', isSquared: true },
  ...{ sizeCertainty: 'measured', countCertainty: 'measured', isTurnable: false, oneWayBecause: 'count', dyeing: 'plain' },
  ...{ washState: 'new', washedOn: null, bleedTest: null, bleedTestedOn: null, care: [], note: null, isGone: false },
  ...{ parent: null, reservedBy: [], home, current: home },
}

const who = {
  pathParameters: z.strictObject({ clothPieceId: idText }),
  answer: pieceSchema,
  problems: ['not-found', 'refused'] as const,
}
const edit = {
  version: z.int().min(0).optional().meta({ description: 'The version last seen; left out, the piece is taken as it stands.' }),
  note: shortText.nullable().default(null).meta({ description: 'For the journal.' }),
}
const written = {
  ...who,
  method: 'post',
  group: 'Stock',
  answerMeans: 'The piece as it is now.',
  takesIdempotencyKey: true,
} as const

export const getClothPiece = operation({
  ...who,
  method: 'get',
  path: '/cloth/{clothPieceId}',
  id: 'getClothPiece',
  group: 'Stock',
  summary: 'One piece of cloth, its count, care and place',
  description: 'Pieces that are gone are found too, for what was cut from them.',
  answerMeans: 'The piece.',
  problems: ['not-found'],
  example: { answer: examplePiece },
})

const cardFields = {
  label: shortText.nullable(),
  makerName: shortText.nullable(),
  name: shortText,
  colourName: shortText.nullable(),
  lab: orNull(labSchema),
  weave: z.enum(weaves),
  widthUm: sideUm.meta({ description: 'Along the weft.' }),
  heightUm: sideUm.meta({ description: 'Along the warp.' }),
  isSquared: z.boolean().meta({ description: 'Measured after squaring; false for a nominal size.' }),
  sizeCertainty: z.enum(sizeCertainties),
  ...careFields,
  note: noteText.nullable(),
}

export const addClothPiece = operation({
  method: 'post',
  path: '/cloth',
  id: 'addClothPiece',
  group: 'Stock',
  summary: 'Add a piece of cloth',
  description:
    'Hand-dyed cloth, and cloth whose count is not square, wants `isTurnable`: the dye may run one way, and a design changes its size when turned. Other cloth may be turned when nothing is said.',
  body: z
    .strictObject({
      ownerId: idText,
      placeLabel: shortText.nullable().default(null).meta({ description: 'Where it lives; a new label becomes a place.' }),
      label: cardFields.label.default(null),
      makerName: cardFields.makerName.default(null),
      name: cardFields.name,
      colourName: cardFields.colourName.default(null),
      lab: cardFields.lab.default(null),
      weave: cardFields.weave,
      ...pieceCountFields,
      countCertainty: careFields.countCertainty.default('label'),
      widthUm: cardFields.widthUm,
      heightUm: cardFields.heightUm,
      isSquared: cardFields.isSquared.default(false),
      sizeCertainty: cardFields.sizeCertainty.default('label'),
      isTurnable: z.boolean().optional(),
      oneWayBecause: careFields.oneWayBecause.default(null),
      dyeing: careFields.dyeing.default(null),
      washState: careFields.washState.default('unknown'),
      washedOn: careFields.washedOn.default(null),
      note: cardFields.note.default(null),
    })
    .transform(({ count, ends, picks, ...card }, context) => {
      const read = readPieceCount({ count, ends, picks })
      if (!('message' in read)) return { ...card, ends: read.ends, picks: read.picks }
      const params = { accepted: read.accepted }
      context.issues.push({ code: 'custom', input: card, path: [read.field], message: read.message, params })
      return z.NEVER
    })
    .meta({ id: 'ClothPieceRequest' }),
  answer: pieceSchema,
  answerStatus: 201,
  answerMeans: 'The piece.',
  problems: ['refused'],
  takesIdempotencyKey: true,
  example: {
    body: {
      ...{ ownerId: 'o1', placeLabel: 'C3', label: 'L-01', makerName: 'Harrowmere Looms', name: 'Harrowmere Linen' },
      ...{ colourName: 'Antique White', weave: 'single', count: '32 x 30.5', countCertainty: 'measured' },
      ...{ widthUm: 18 * inch, heightUm: 673_100, isSquared: true, sizeCertainty: 'measured' },
      ...{ isTurnable: false, oneWayBecause: 'count', dyeing: 'plain', washState: 'new' },
    },
    answer: { ...examplePiece, version: 0 },
  },
})

const { note: cardNote, ...changeable } = cardFields

export const changeClothPiece = operation({
  ...written,
  path: '/cloth/{clothPieceId}',
  id: 'changeClothPiece',
  summary: 'Change what is written on a piece’s card',
  description: 'Fields left out stay as they are. Another count is a fresh one: the mark that it is to be counted again goes.',
  body: z
    .strictObject({
      version: edit.version,
      ...z.strictObject({ ...changeable, ends: countSchema, picks: countSchema, note: cardNote }).partial().shape,
    })
    .refine((change) => change.isTurnable !== true || (change.oneWayBecause ?? null) === null, {
      path: ['oneWayBecause'],
      message: 'It may be turned: then there is no reason why not.',
      params: { accepted: 'null, or isTurnable false' },
    })
    .meta({ id: 'ClothPieceChange' }),
  example: { body: { version: 2, isTurnable: false, oneWayBecause: 'count' }, answer: examplePiece },
})

export const measureClothPiece = operation({
  ...written,
  path: '/cloth/{clothPieceId}/measure',
  id: 'measureClothPiece',
  summary: 'Write down what a piece measures',
  body: z
    .strictObject({ ...edit, widthUm: cardFields.widthUm, heightUm: cardFields.heightUm, isSquared: cardFields.isSquared })
    .meta({ id: 'ClothMeasure' }),
  example: { body: { widthUm: 18 * inch, heightUm: 673_100, isSquared: true }, answer: examplePiece },
})

export const countClothPiece = operation({
  ...written,
  path: '/cloth/{clothPieceId}/count',
  id: 'countClothPiece',
  summary: 'Write down what a piece counts along a ruler',
  description: 'The readings stay in the journal. A piece that was to be counted again after a wash no longer is.',
  body: z
    .strictObject({
      ...edit,
      ...readingsFields,
      isTurnable: z.boolean().optional().meta({ description: 'Whether it may be turned from now on; left out, as it was.' }),
    })
    .meta({ id: 'ClothCount' }),
  example: {
    body: { across: [{ threads: 64, lengthUm: 2 * inch }], up: [{ threads: 61, lengthUm: 2 * inch }], isTurnable: false },
    answer: examplePiece,
  },
})

export const washClothPiece = operation({
  ...written,
  path: '/cloth/{clothPieceId}/wash',
  id: 'washClothPiece',
  summary: 'Write down that a piece was washed',
  description: 'Nothing more is added to a cut from it for shrinking, and its threads are to be counted again.',
  body: z
    .strictObject({
      ...edit,
      washedOn: dateText,
      measured: orNull(
        z.strictObject({ widthUm: cardFields.widthUm, heightUm: cardFields.heightUm, isSquared: cardFields.isSquared }),
      )
        .default(null)
        .meta({ description: 'What it measures now, dry and pressed.' }),
    })
    .meta({ id: 'ClothWash' }),
  example: {
    body: { washedOn: '2026-09-08' },
    answer: { ...examplePiece, washState: 'washed', washedOn: '2026-09-08', isCountStale: true },
  },
})

export const testClothBleeding = operation({
  ...written,
  path: '/cloth/{clothPieceId}/bleed-test',
  id: 'testClothBleeding',
  summary: 'Write down how a piece did, wet on white',
  description: 'The last test is the one that counts. A pass is no guarantee.',
  body: z.strictObject({ ...edit, result: z.enum(bleedTests), testedOn: dateText }).meta({ id: 'ClothBleedTest' }),
  example: {
    body: { result: 'passed', testedOn: '2026-09-08' },
    answer: { ...examplePiece, bleedTest: 'passed', bleedTestedOn: '2026-09-08' },
  },
})
