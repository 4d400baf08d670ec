import { z } from 'zod'
import { kitItemKinds } from '#lib/project/kit/item'
import { kitSteps } from '#lib/project/kit/steps'
import { namedSchema } from './collection'
import { threadRefSchema } from './cover'
import { operation } from './operation'
import { idText, noteText, orNull, shortText } from './quantities'
import { exampleThread } from './stock'

const mostPerKit = 100_000
const priceMinor = z.int().min(0).max(100_000_000)

const toBuySchema = z
  .discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('thread'), putUps: z.int() }),
    z.strictObject({
      kind: z.literal('cloth'),
      pieces: z.int(),
      lengthUm: z.int().nullable().meta({ description: 'Off the bolt of the settings; null when it is not wide enough.' }),
    }),
    z.strictObject({ kind: z.literal('chart'), copies: z.int() }),
    z.strictObject({ kind: z.literal('item'), count: z.int(), packs: z.int().nullable() }),
  ])
  .meta({ id: 'KitToBuy' })

const lineFields = {
  key: z.string().meta({ description: 'As in the master list: `thread:<id>`, `cloth`, `chart`, `item:<id>`.' }),
  kits: z
    .int()
    .nullable()
    .meta({ description: 'Kits there is enough of it for; null where nobody can say: then it stops none.' }),
  toBuy: orNull(toBuySchema).meta({ description: 'For all of them; null when there is enough.' }),
}

const lineSchema = z
  .discriminatedUnion('kind', [
    z.strictObject({
      ...lineFields,
      kind: z.literal('thread'),
      thread: threadRefSchema,
      perKitStrandTenths: z.int(),
      cutsPerPutUp: z.int().meta({ description: '0 where a kit takes more than one put-up.' }),
      putUpsForAll: z.int().meta({ description: 'Bought new.' }),
      lotsMatter: z.boolean(),
      lot: z.string().nullable().meta({ description: 'The lot those kits are of, where lots matter.' }),
      cut: z.int().meta({ description: 'Kits that have their cut of it already.' }),
    }),
    z.strictObject({
      ...lineFields,
      kind: z.literal('cloth'),
      cutWidthUm: z.int().nullable(),
      cutHeightUm: z.int().nullable(),
      wanted: z.int(),
      cut: z.int().meta({ description: 'Pieces cut for it and lying there.' }),
      kept: z.int().meta({ description: 'More out of cloth kept for it or in a plan of cuts.' }),
      free: z.int().meta({ description: 'More out of free cloth that looks the same.' }),
      lengthForAllUm: z.int().nullable().meta({ description: 'Off the bolt of the settings, for all of them.' }),
    }),
    z.strictObject({
      ...lineFields,
      kind: z.literal('chart'),
      isFile: z.boolean().meta({ description: 'A file is one person’s and is not packed.' }),
      wanted: z.int().meta({ description: 'One to a kit, none to a spare until it is sold.' }),
      copies: z.int().meta({ description: 'For these kits: on record, less those lent and those earlier kits want.' }),
    }),
    z.strictObject({
      ...lineFields,
      kind: z.literal('item'),
      itemId: z.string(),
      itemKind: z.enum(kitItemKinds),
      name: z.string(),
      notionId: z.string().nullable(),
      priceMinor: z.int().nullable().meta({ description: 'Of one, where the stock does not say.' }),
      note: z.string().nullable(),
      perKit: z.int(),
      wanted: z.int(),
      packsForAll: z.int().nullable(),
      have: orNull(
        z.strictObject({
          taken: z.int().meta({ description: 'Lies with the project.' }),
          reserved: z.int().meta({ description: 'Set aside for it at home.' }),
          free: z.int().meta({ description: 'At home, and wanted by no kits.' }),
        }),
      ),
    }),
  ])
  .meta({ id: 'KitLine' })

const kitSchema = z
  .strictObject({
    projectId: z.string(),
    version: z.int().meta({ description: 'Of the project: hand it back with a change.' }),
    title: z.string(),
    owner: namedSchema,
    copies: z.int().meta({ description: 'All kits, spares among them.' }),
    spares: z.int(),
    soldSpares: z.int(),
    makeable: z
      .int()
      .nullable()
      .meta({ description: 'Kits that can be made now; null when nothing is known of what they take.' }),
    stops: z
      .array(z.strictObject({ key: z.string(), toBuy: orNull(toBuySchema) }))
      .meta({ description: 'What stops the next one, and what to buy for one more.' }),
    unknown: z.array(z.string()).meta({ description: 'Lines of which nobody can say how many kits they give.' }),
    lines: z.array(lineSchema),
    progress: z
      .strictObject(Object.fromEntries(kitSteps.map((step) => [step, z.int()])) as Record<(typeof kitSteps)[number], z.ZodInt>)
      .meta({ id: 'KitProgress', description: 'How many kits are so far.' }),
    cost: z
      .strictObject({
        lines: z.array(
          z.strictObject({
            key: z.string(),
            perKitMinor: z.int().nullable().meta({ description: 'Null where no price is known.' }),
            forAllMinor: z.int().nullable(),
            leftOverMinor: z.int().meta({ description: 'What whole put-ups cost beyond what is used.' }),
          }),
        ),
        perKitMinor: z.int().meta({ description: 'Lines without a price left out.' }),
        forAllMinor: z.int(),
        leftOverMinor: z.int(),
        unknown: z.array(z.string()).meta({ description: 'Lines without a price.' }),
        priceMinor: z.int().nullable().meta({ description: 'What one kit is sold for.' }),
        marginMinor: z.int().nullable().meta({ description: 'At most that much while a price is unknown.' }),
        marginPerMille: z.int().nullable(),
      })
      .meta({ id: 'KitCost' }),
  })
  .meta({ id: 'ProjectKit' })

const exampleKit: z.input<typeof kitSchema> = {
  ...{ projectId: 'j1', version: 3, title: 'Seven Lanterns', owner: { id: 'o1', name: 'The Oxmarsh Needle Room' } },
  ...{ copies: 13, spares: 1, soldSpares: 0, makeable: 12 },
  stops: [{ key: 'thread:t1', toBuy: { kind: 'thread', putUps: 1 } }],
  unknown: ['cloth'],
  lines: [
    {
      ...{ kind: 'thread', key: 'thread:t1', thread: exampleThread, perKitStrandTenths: 186_000, cutsPerPutUp: 2 },
      ...{ putUpsForAll: 7, lotsMatter: false, lot: null, cut: 0, kits: 12, toBuy: { kind: 'thread', putUps: 1 } },
    },
    {
      ...{ kind: 'cloth', key: 'cloth', cutWidthUm: null, cutHeightUm: null, wanted: 13, cut: 0, kept: 0, free: 0 },
      ...{ lengthForAllUm: null, kits: null, toBuy: null },
    },
    { kind: 'chart', key: 'chart', isFile: false, wanted: 12, copies: 13, kits: 14, toBuy: null },
    {
      ...{ kind: 'item', key: 'item:i1', itemId: 'i1', itemKind: 'needle', name: 'Tapestry needle, size 24', notionId: 'n1' },
      ...{ priceMinor: null, note: null, perKit: 1, wanted: 13, packsForAll: 3, have: { taken: 0, reserved: 13, free: 5 } },
      ...{ kits: 18, toBuy: null },
    },
  ],
  progress: { reserved: 12, pulled: 0, cut: 0, packed: 0, checked: 0, sealed: 0 },
  cost: {
    lines: [
      { key: 'thread:t1', perKitMinor: 45, forAllMinor: 579, leftOverMinor: 226 },
      { key: 'cloth', perKitMinor: null, forAllMinor: null, leftOverMinor: 0 },
      { key: 'chart', perKitMinor: 550, forAllMinor: 6_600, leftOverMinor: 0 },
      { key: 'item:i1', perKitMinor: 20, forAllMinor: 260, leftOverMinor: 0 },
    ],
    ...{ perKitMinor: 615, forAllMinor: 7_439, leftOverMinor: 226, unknown: ['cloth'] },
    ...{ priceMinor: 2_450, marginMinor: 1_835, marginPerMille: 749 },
  },
}

const projectPath = z.strictObject({ projectId: idText })
const itemPath = z.strictObject({ projectId: idText, itemId: idText })
const edit = {
  version: z.int().min(0).optional().meta({ description: 'The version last seen; left out, the project is taken as it stands.' }),
}
const itemFields = {
  kind: z.enum(kitItemKinds),
  name: shortText,
  perKit: z.int().min(1).max(mostPerKit),
  notionId: idText.nullable().meta({ description: 'The stock it is taken from; as many as the kits take are reserved.' }),
  priceMinor: orNull(priceMinor).meta({ description: 'Of one, where the stock does not say.' }),
  note: noteText.nullable(),
}
const answered = { group: 'Projects', answer: kitSchema, problems: ['not-found', 'refused'] } as const
const written = {
  ...answered,
  method: 'post',
  answerMeans: 'The kits as they are reckoned now.',
  takesIdempotencyKey: true,
} as const

export const kitOperations = {
  get: operation({
    ...answered,
    method: 'get',
    path: '/projects/{projectId}/kit',
    id: 'getProjectKit',
    summary: 'What a batch of kits takes, how many can be made, what stops the next one and what they cost',
    description:
      'Thread is counted in cuts without a join, of one lot where lots matter; what is promised to the project counts as there. Needles and the like are shared out to the kits that were set down first.',
    pathParameters: projectPath,
    answerMeans: 'The reckoning, line by line: threads in the order of the key, cloth, chart, other things.',
    problems: ['not-found'],
    example: { answer: exampleKit },
  }),
  addItem: operation({
    ...written,
    path: '/projects/{projectId}/kit/items',
    id: 'addKitItem',
    summary: 'Put something more into every kit',
    description: 'Refused while bags are packed.',
    pathParameters: projectPath,
    body: z
      .strictObject({
        ...edit,
        ...itemFields,
        notionId: itemFields.notionId.default(null),
        priceMinor: itemFields.priceMinor.default(null),
        note: itemFields.note.default(null),
      })
      .meta({ id: 'KitItemRequest' }),
    answerStatus: 201,
    example: {
      body: { kind: 'needle', name: 'Tapestry needle, size 24', perKit: 1, notionId: 'n1' },
      answer: exampleKit,
    },
  }),
  changeItem: operation({
    ...written,
    path: '/projects/{projectId}/kit/items/{itemId}',
    id: 'changeKitItem',
    summary: 'Change something that goes into every kit',
    description: 'Fields left out stay as they are. Kind, number and stock do not change while bags are packed.',
    pathParameters: itemPath,
    body: z.strictObject({ ...edit, ...z.strictObject(itemFields).partial().shape }).meta({ id: 'KitItemChange' }),
    example: { body: { perKit: 2 }, answer: exampleKit },
  }),
  moveItem: operation({
    ...written,
    path: '/projects/{projectId}/kit/items/{itemId}/move',
    id: 'moveKitItem',
    summary: 'Move it a place up or down the list',
    pathParameters: itemPath,
    body: z.strictObject({ ...edit, to: z.enum(['up', 'down']) }).meta({ id: 'KitItemMove' }),
    example: { body: { to: 'up' }, answer: exampleKit },
  }),
  removeItem: operation({
    ...written,
    path: '/projects/{projectId}/kit/items/{itemId}/remove',
    id: 'removeKitItem',
    summary: 'Leave it out of the kits',
    description: 'Refused while bags are packed. What was reserved of its stock is free again.',
    pathParameters: itemPath,
    body: z.strictObject(edit).meta({ id: 'KitItemRemove' }),
    example: { body: {}, answer: exampleKit },
  }),
  setPrice: operation({
    ...written,
    path: '/projects/{projectId}/kit/price',
    id: 'setKitPrice',
    summary: 'Say what one kit is sold for',
    pathParameters: projectPath,
    body: z.strictObject({ ...edit, priceMinor: orNull(priceMinor) }).meta({ id: 'KitPriceRequest' }),
    example: { body: { priceMinor: 2_450 }, answer: exampleKit },
  }),
}
