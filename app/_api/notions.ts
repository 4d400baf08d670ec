import { z } from 'zod'
import { countChanges } from '#lib/db/notion/count-notion'
import { notionKinds } from '#lib/notion/notion'
import { flagQuery, ownerIdsField, ownerQuery, type placeRefSchema, whereaboutsFields } from './collection'
import { operation } from './operation'
import { nextField, pageQuery } from './paging'
import { idText, noteText, orNull, shortText } from './quantities'

/** More than any drawer of beads holds. */
const most = 1_000_000
const many = z.int().min(1).max(most)

const cardFields = {
  kind: z.enum(notionKinds),
  name: shortText,
  size: shortText.nullable().meta({ description: 'As it is sold: `10 in`, `25 cm`, `size 26`, `11/0`.' }),
  minimum: orNull(z.int().min(0).max(most)).meta({ description: 'Fewer than this, and it is to be bought.' }),
  packOf: orNull(many).meta({ description: 'How many a pack holds, where it is sold in packs.' }),
  priceMinor: orNull(
    z
      .int()
      .min(0)
      .max(100 * most),
  ).meta({ description: 'Of one, or of a pack where it is sold so; pence or cents.' }),
  note: noteText.nullable(),
}

const notionSchema = z
  .strictObject({
    notionId: z.string(),
    version: z.int().meta({ description: 'Hand it back with a change, to be told when somebody else changed it first.' }),
    ownerId: z.string(),
    ...cardFields,
    count: z.int(),
    toBuy: orNull(z.strictObject({ short: z.int(), packs: z.int().nullable() })).meta({
      description:
        'When there are fewer than its minimum and what kits under way want: how many short, and whole packs that make it up.',
    }),
    usedBy: orNull(z.strictObject({ projectId: z.string(), title: z.string() })).meta({
      description: 'The project it is in use for.',
    }),
    ...whereaboutsFields,
  })
  .meta({ id: 'Notion' })
const detailSchema = z.strictObject({ ...notionSchema.shape, isGone: z.boolean() }).meta({ id: 'NotionDetail' })

const home: z.infer<typeof placeRefSchema> = { placeId: 'p9', label: 'Drawer N1' }
const exampleNotion: z.input<typeof notionSchema> = {
  ...{ notionId: 'n1', version: 2, ownerId: 'o1', kind: 'needle', name: 'Tapestry needles', size: 'size 26' },
  ...{ minimum: 13, packOf: 6, priceMinor: null, note: null, count: 0, toBuy: { short: 13, packs: 3 } },
  ...{ usedBy: null, home, current: home },
}
const exampleDetail = { ...exampleNotion, isGone: false }

export const listNotionsOperation = operation({
  method: 'get',
  path: '/notions',
  id: 'listNotions',
  group: 'Stock',
  summary: 'Hoops, needles, scissors and other notions',
  description: 'By kind, then size: needles from coarse to fine, hoops from small to large, whatever unit they are sold in.',
  query: z.strictObject({
    ...ownerQuery,
    ...pageQuery,
    kind: z.enum(notionKinds).optional(),
    place: idText.optional().meta({ description: 'Only what is there now.' }),
    project: idText.optional().meta({ description: 'Only what is in use for it.' }),
    toBuy: flagQuery.optional().meta({ description: 'Only what there are too few of, or only the rest.' }),
  }),
  answer: z
    .strictObject({ ownerIds: ownerIdsField, total: z.int(), notions: z.array(notionSchema), next: nextField })
    .meta({ id: 'NotionList' }),
  answerMeans: 'A page of notions.',
  example: { answer: { ownerIds: ['o1'], total: 1, notions: [exampleNotion], next: null } },
})

export const addNotionOperation = operation({
  method: 'post',
  path: '/notions',
  id: 'addNotion',
  group: 'Stock',
  summary: 'Add a notion',
  body: z
    .strictObject({
      ownerId: idText,
      kind: cardFields.kind,
      name: cardFields.name,
      size: cardFields.size.default(null),
      count: z.int().min(0).max(most),
      minimum: cardFields.minimum.default(null),
      packOf: cardFields.packOf.default(null),
      priceMinor: cardFields.priceMinor.default(null),
      note: cardFields.note.default(null),
      placeLabel: shortText.nullable().default(null).meta({ description: 'Where it lives; a new label becomes a place.' }),
    })
    .meta({ id: 'NotionRequest' }),
  answer: detailSchema,
  answerStatus: 201,
  answerMeans: 'The notion.',
  takesIdempotencyKey: true,
  example: {
    body: {
      ...{ ownerId: 'o1', kind: 'needle', name: 'Tapestry needles', size: 'size 26', count: 0, minimum: 13, packOf: 6 },
      placeLabel: 'Drawer N1',
    },
    answer: { ...exampleDetail, version: 0 },
  },
})

const one = {
  pathParameters: z.strictObject({ notionId: idText }),
  group: 'Stock',
  answer: detailSchema,
  problems: ['not-found', 'refused'] as const,
} as const

const version = z.int().min(0).optional().meta({ description: 'The version last seen; left out, it is taken as it stands.' })
const reason = shortText.nullable().default(null).meta({ description: 'For the journal.' })
const written = { ...one, method: 'post', answerMeans: 'The notion as it is now.', takesIdempotencyKey: true } as const

const getNotion = operation({
  ...one,
  method: 'get',
  path: '/notions/{notionId}',
  id: 'getNotion',
  summary: 'One notion: how many, and where',
  description: 'What is off the list is found too.',
  answerMeans: 'The notion.',
  problems: ['not-found'],
  example: { answer: exampleDetail },
})

const changeNotion = operation({
  ...written,
  path: '/notions/{notionId}',
  id: 'changeNotion',
  summary: 'Change what is written on a notion’s card',
  description: 'Fields left out stay as they are. How many there are is counted, received or used up.',
  body: z.strictObject({ version, ...z.strictObject(cardFields).partial().shape }).meta({ id: 'NotionChange' }),
  example: { body: { version: 1, minimum: 13 }, answer: exampleDetail },
})

const countNotionOperation = operation({
  ...written,
  path: '/notions/{notionId}/count',
  id: 'countNotion',
  summary: 'More of a notion, fewer, or what a count found',
  body: z
    .strictObject({ version, change: z.enum(countChanges), many: z.int().min(0).max(most), reason })
    .refine(({ change, many }) => change === 'counted' || many > 0, {
      path: ['many'],
      message: 'It is nought.',
      params: { accepted: 'one or more' },
    })
    .meta({ id: 'NotionCount' }),
  example: { body: { change: 'counted', many: 0 }, answer: exampleDetail },
})

const moveNotionOperation = operation({
  ...written,
  path: '/notions/{notionId}/move',
  id: 'moveNotion',
  summary: 'Lay a notion somewhere else, for now or to live there',
  body: z
    .strictObject({
      version,
      placeLabel: shortText.meta({ description: 'A new label becomes a place.' }),
      becomesHome: z.boolean().default(false).meta({ description: 'It lives there from now on; else it is out.' }),
    })
    .meta({ id: 'NotionMove' }),
  example: { body: { placeLabel: 'Drawer N1', becomesHome: true }, answer: exampleDetail },
})

const takeNotionOperation = operation({
  ...written,
  path: '/notions/{notionId}/take',
  id: 'takeNotion',
  summary: 'Take a notion, or some of it, for a project',
  description:
    'It goes where the project’s kit is. When some stay behind, what is taken is a notion of its own until it is put back.',
  answerMeans: 'What was taken.',
  body: z.strictObject({ version, projectId: idText, many }).meta({ id: 'NotionTake' }),
  example: {
    body: { projectId: 'j1', many: 2 },
    answer: { ...exampleDetail, count: 2, minimum: null, toBuy: null, usedBy: { projectId: 'j1', title: 'Seven Lanterns' } },
  },
})

const putBackNotionOperation = operation({
  ...written,
  path: '/notions/{notionId}/put-back',
  id: 'putBackNotion',
  summary: 'Put a notion back where it lives',
  description: 'It is laid together with more of the same that lie there.',
  answerMeans: 'The notion under which it is found now.',
  body: z.strictObject({ version }).meta({ id: 'NotionPutBack' }),
  example: { body: {}, answer: exampleDetail },
})

const removeNotionOperation = operation({
  ...written,
  path: '/notions/{notionId}/remove',
  id: 'removeNotion',
  summary: 'Take a notion off the list',
  description: 'Refused while a project has it. Its history stays.',
  body: z.strictObject({ version, reason }).meta({ id: 'NotionRemove' }),
  example: { body: { reason: 'broken' }, answer: { ...exampleDetail, isGone: true } },
})

const restoreNotionOperation = operation({
  ...written,
  path: '/notions/{notionId}/restore',
  id: 'restoreNotion',
  summary: 'Put a notion back on the list',
  body: z.strictObject({ version }).meta({ id: 'NotionRestore' }),
  example: { body: {}, answer: exampleDetail },
})

export const notionOperations = {
  get: getNotion,
  change: changeNotion,
  count: countNotionOperation,
  move: moveNotionOperation,
  take: takeNotionOperation,
  putBack: putBackNotionOperation,
  remove: removeNotionOperation,
  restore: restoreNotionOperation,
} as const

export const calculateNeedle = operation({
  method: 'post',
  path: '/calculate/needle',
  id: 'calculateNeedle',
  right: 'read',
  group: 'Calculators',
  summary: 'Which blunt needle is usually taken',
  description: 'Common practice, not a standard: guides differ by one size. A larger number is a finer needle.',
  body: z
    .strictObject({
      stitchesPerInch: z
        .number()
        .min(1)
        .max(200)
        .meta({ description: 'Threads to the inch of the cloth by the threads a stitch spans.' }),
      isBackstitch: z.boolean().default(false),
    })
    .meta({ id: 'NeedleRequest' }),
  answer: z.strictObject({ sizes: orNull(z.strictObject({ coarsest: z.int(), finest: z.int() })) }).meta({ id: 'NeedleAdvice' }),
  answerMeans: 'Sizes of tapestry needle; null below nine stitches to the inch, of which practice says nothing.',
  example: { body: { stitchesPerInch: 16 }, answer: { sizes: { coarsest: 24, finest: 26 } } },
})
