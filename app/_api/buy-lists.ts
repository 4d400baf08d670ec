import { z } from 'zod'
import { shopLineStatuses, shopListStatuses } from '#lib/planning/buying/shop-list'
import { ownerQuery, placeRefSchema } from './collection'
import { threadRefSchema } from './cover'
import { operation } from './operation'
import { nextField, numberedPageQuery } from './paging'
import { idText, noteText, orNull, putUpStrandTenths, shortText } from './quantities'
import { exampleThread } from './stock'

const by = shortText.max(120).optional().meta({ description: 'Who does it, by name.', example: 'Ines Coldwell' })
const putUps = z.int().min(1).max(10_000)
const minor = z.int().min(0).max(100_000_000)
const listPath = z.strictObject({ listId: idText })
const group = 'Stock' as const

const listFields = {
  listId: z.string(),
  title: z.string(),
  ownerId: z.string().meta({ description: 'Whose stock it is bought into.' }),
  status: z.enum(shopListStatuses),
  startedAt: z.string(),
  startedBy: z.string().nullable(),
  closedAt: z.string().nullable(),
  closedBy: z.string().nullable(),
  note: z.string().nullable(),
  version: z.int(),
  progress: z.strictObject({ lines: z.int(), bought: z.int(), notThere: z.int() }),
}
const exampleList = {
  ...{ listId: 's1', title: 'Saturday', ownerId: 'o1', status: 'open' as const, startedAt: '2026-09-05T08:00:00.000Z' },
  ...{ startedBy: 'Hanne Drewitt', closedAt: null, closedBy: null, note: null, version: 0 },
  progress: { lines: 9, bought: 5, notThere: 1 },
}

const lineSchema = z
  .strictObject({
    lineId: z.string(),
    thread: orNull(threadRefSchema),
    text: z.string().nullable().meta({ description: 'What is no thread, in words.' }),
    putUpWord: z.string().nullable(),
    putUpStrandTenths: z.int(),
    putUps: z.int().meta({ description: 'Put-ups to buy; sold by whole packs of `packPutUps`.' }),
    packPutUps: z.int(),
    isOneLot: z.boolean(),
    matchLot: z.string().nullable().meta({ description: 'The lot it has to match.' }),
    supplier: z.string().nullable(),
    priceMinor: z.int().nullable().meta({ description: 'Of one pack, as it was expected.' }),
    status: z.enum(shopLineStatuses),
    boughtPutUps: z.int().nullable().meta({ description: 'Null once bought: as many as the list says.' }),
    lot: z.string().nullable(),
    paidMinor: z.int().nullable().meta({ description: 'For all of it.' }),
    instead: orNull(threadRefSchema).meta({ description: 'The thread that was bought for it.' }),
    tickedAt: z.string().nullable(),
    tickedBy: z.string().nullable(),
    isInStock: z.boolean(),
    home: orNull(placeRefSchema).meta({ description: 'Where it lies once it is bought; before that, where it would go.' }),
    note: z.string().nullable(),
  })
  .meta({ id: 'ShopLine' })
const exampleLine = {
  ...{ lineId: 'n1', thread: exampleThread, text: null, putUpWord: null, putUpStrandTenths: 480_000, putUps: 3 },
  ...{ packPutUps: 1, isOneLot: false, matchLot: null, supplier: 'Marl Street', priceMinor: 150, status: 'open' as const },
  ...{ boughtPutUps: null, lot: null, paidMinor: null, instead: null, tickedAt: null, tickedBy: null, isInStock: false },
  ...{ home: { placeId: 'p1', label: 'T2.1-14' }, note: null },
}

const detailSchema = z
  .strictObject({
    ...listFields,
    revision: z.int().meta({ description: 'Ask for the ticks since this.' }),
    wantedFor: z.array(
      z.strictObject({
        ...{ designId: z.string(), title: z.string(), projectId: z.string().nullable() },
        listName: z.string().nullable().meta({ description: 'The thread list it was reckoned by.' }),
      }),
    ),
    sums: z.strictObject({ expectedMinor: z.int(), unpriced: z.int(), paidMinor: z.int(), unpaid: z.int() }),
    unsorted: orNull(placeRefSchema).meta({ description: 'Where thread goes that has no home yet.' }),
    lines: z.array(lineSchema),
  })
  .meta({ id: 'ShopList', description: 'A list to shop by, as it was reckoned when it was made.' })
const exampleDetail = {
  ...{ ...exampleList, revision: 41, unsorted: null, lines: [exampleLine] },
  wantedFor: [{ designId: 'd1', title: 'Rook Hill in Snow', projectId: null, listName: 'cotton' }],
  sums: { expectedMinor: 450, unpriced: 0, paidMinor: 0, unpaid: 0 },
}

const newLineSchema = z
  .strictObject({
    lineId: idText.optional().meta({ description: 'Made by whoever asks, so that it is put down once.' }),
    threadId: idText.optional(),
    text: shortText
      .optional()
      .meta({ description: 'Instead of `threadId`: what is no thread, in words.', example: 'needles 26' }),
    putUps: putUps.default(1),
    putUpWord: shortText.max(40).nullable().default(null),
    putUpStrandTenths: putUpStrandTenths.nullable().default(null).meta({ description: 'Null for the line’s own put-up.' }),
    packPutUps: z.int().min(1).max(999).default(1),
    isOneLot: z.boolean().default(false),
    matchLot: shortText.max(100).nullable().default(null),
    supplier: shortText.nullable().default(null),
    priceMinor: minor.nullable().default(null),
    note: noteText.max(1_000).nullable().default(null),
  })
  .refine(({ threadId, text }) => (threadId === undefined) !== (text === undefined), {
    message: 'A line is of a thread or in words.',
    params: { accepted: 'either `threadId` or `text`' },
  })
  .meta({ id: 'NewShopLine' })
export type NewShopLine = z.infer<typeof newLineSchema>

const manyIds = z.array(idText).max(50).default([])

export const listBuyListsOperation = operation({
  ...({ method: 'get', path: '/buy/lists', id: 'listShopLists', group } as const),
  summary: 'Lists to shop by',
  query: z.strictObject({
    closed: z
      .enum(['true', 'false'])
      .transform((flag) => flag === 'true')
      .optional()
      .meta({ description: 'true: those that are done or dropped instead.' }),
    ...ownerQuery,
    ...numberedPageQuery,
  }),
  answer: z
    .strictObject({ total: z.int(), lists: z.array(z.strictObject(listFields)), next: nextField })
    .meta({ id: 'ShopListList' }),
  answerMeans: 'Open ones, the newest first; closed ones, the last closed first.',
  example: { answer: { total: 1, lists: [exampleList], next: null } },
})

export const keepBuyListOperation = operation({
  ...({ method: 'post', path: '/buy/lists', id: 'keepShopList', group } as const),
  summary: 'Keep a list to shop by',
  description:
    'What is to be bought for these designs and projects, reckoned now and kept so: whole put-ups, the cheapest mix of lengths and packs; then the lines given. What is on it counts as on its way until it is bought, found not there, or the list is ended.',
  body: z
    .strictObject({
      listId: idText.optional().meta({ description: 'Made by whoever asks, so that it is kept once.' }),
      title: shortText,
      ownerId: idText,
      note: noteText.nullable().default(null),
      designs: manyIds,
      lists: manyIds.meta({ description: 'Thread lists to reckon designs by; else those that take the least buying together.' }),
      projects: manyIds,
      withPerhaps: z
        .boolean()
        .default(false)
        .meta({ description: 'Also what need only be bought if something at hand will not do.' }),
      lines: z.array(newLineSchema).max(500).default([]),
      by,
    })
    .meta({ id: 'KeepShopListRequest' }),
  answer: detailSchema,
  answerStatus: 201,
  answerMeans: 'The list.',
  problems: ['refused'],
  example: { body: { title: 'Saturday', ownerId: 'o1', designs: ['d1'] }, answer: exampleDetail },
})

export const getBuyListKept = operation({
  ...({ method: 'get', path: '/buy/lists/{listId}', id: 'getShopList', group } as const),
  summary: 'A list to shop by',
  pathParameters: listPath,
  answer: detailSchema,
  answerMeans: 'The list as it stands.',
  problems: ['not-found'],
  example: { answer: exampleDetail },
})

export const changeBuyListOperation = operation({
  ...({ method: 'post', path: '/buy/lists/{listId}', id: 'changeShopList', group } as const),
  summary: 'Call a list to shop by something else',
  pathParameters: listPath,
  body: z
    .strictObject({
      version: z.int().min(0).optional().meta({ description: 'The version last seen; left out, it is taken as it stands.' }),
      title: shortText,
      note: noteText.nullable().default(null),
    })
    .meta({ id: 'ShopListChange' }),
  answer: detailSchema,
  answerMeans: 'The list as it now stands.',
  problems: ['not-found', 'refused'],
  example: { body: { version: 0, title: 'Sunday' }, answer: { ...exampleDetail, title: 'Sunday', version: 1 } },
})

export const addBuyLinesOperation = operation({
  ...({ method: 'post', path: '/buy/lists/{listId}/lines', id: 'addShopLines', group } as const),
  summary: 'Put more on a list to shop by',
  pathParameters: listPath,
  body: z
    .strictObject({
      lines: z.array(newLineSchema).min(1).max(500),
      isOnceEach: z
        .boolean()
        .default(false)
        .meta({ description: 'Threads that stand open on the list already are passed over.' }),
    })
    .meta({ id: 'AddShopLinesRequest' }),
  answer: detailSchema,
  answerMeans: 'The list as it now stands.',
  problems: ['not-found', 'refused'],
  example: { body: { lines: [{ text: 'needles 26', putUps: 2 }] }, answer: exampleDetail },
})

export const removeBuyLineOperation = operation({
  ...({ method: 'post', path: '/buy/lists/{listId}/lines/{lineId}/remove', id: 'removeShopLine', group } as const),
  summary: 'Take a line off a list to shop by',
  description: 'Not one that is bought: untick it first.',
  pathParameters: z.strictObject({ listId: idText, lineId: idText }),
  answer: detailSchema,
  answerMeans: 'The list as it now stands.',
  problems: ['not-found', 'refused'],
  example: { answer: exampleDetail },
})

const newsFields = {
  revision: z.int().meta({ description: 'Ask for the ticks since this next.' }),
  status: z.enum(shopListStatuses),
  version: z.int().meta({ description: 'Another than before: read the list again.' }),
  lines: z.array(
    z.strictObject({
      lineId: z.string(),
      status: z.enum(shopLineStatuses),
      boughtPutUps: z.int().nullable(),
      lot: z.string().nullable(),
      paidMinor: z.int().nullable(),
      insteadThreadId: z.string().nullable(),
      tickedAt: z.string().nullable(),
      tickedBy: z.string().nullable(),
      isInStock: z.boolean(),
      place: z.string().nullable().meta({ description: 'The label of where it lies, once it is in stock.' }),
    }),
  ),
}
const exampleNews = {
  ...{ revision: 42, status: 'open' as const, version: 0 },
  lines: [
    {
      ...{ lineId: 'n1', status: 'bought' as const, boughtPutUps: null, lot: null, paidMinor: 420, insteadThreadId: null },
      ...{ tickedAt: '2026-09-05T10:03:00.000Z', tickedBy: 'Hanne Drewitt', isInStock: true, place: 'T2.1-14' },
    },
  ],
}

export const getBuyTicks = operation({
  ...({ method: 'get', path: '/buy/lists/{listId}/ticks', id: 'getShopTicks', group } as const),
  summary: 'What was ticked since, on a list to shop by',
  pathParameters: listPath,
  query: z.strictObject({
    since: z
      .string()
      .regex(/^\d{1,15}$/, 'A revision is a whole number.')
      .transform(Number)
      .default(0)
      .meta({ description: 'The revision of the last answer.' }),
  }),
  answer: z.strictObject(newsFields).meta({ id: 'ShopTicks' }),
  answerMeans: 'Lines that changed since, whoever ticked them.',
  problems: ['not-found'],
  example: { answer: exampleNews },
})

export const tickBuyListOperation = operation({
  ...({ method: 'post', path: '/buy/lists/{listId}/ticks', id: 'tickShopList', group } as const),
  summary: 'Tick lines of a list to shop by',
  description:
    'The later tick of a line stands, in whatever order they arrive, so ticks may wait on a device and be sent again. What is bought is received into stock where it lives in the same write, once; unticked, it is taken back as long as nothing was used of it. Answers with what is new since, too.',
  pathParameters: listPath,
  body: z
    .strictObject({
      ticks: z
        .array(
          z
            .strictObject({
              lineId: idText,
              status: z.enum(shopLineStatuses),
              boughtPutUps: z
                .int()
                .min(0)
                .max(10_000)
                .nullable()
                .default(null)
                .meta({ description: 'Null: as many as it says.' }),
              lot: shortText.max(100).nullable().default(null),
              paidMinor: minor.nullable().default(null).meta({ description: 'For all of it.' }),
              insteadThreadId: idText.nullable().default(null),
              place: shortText
                .max(100)
                .nullable()
                .default(null)
                .meta({ description: 'Where it goes, by label, made when no place has it; null: to its home.' }),
              remembersPrice: z
                .boolean()
                .default(false)
                .meta({ description: 'What was paid is from now on what its line is sold for there.' }),
              tickedAt: z.iso.datetime({ offset: true }).meta({ description: 'By the clock of who ticked it.' }),
              by: orNull(shortText.max(120)).optional(),
            })
            .refine(({ status, insteadThreadId }) => status !== 'instead' || insteadThreadId !== null, {
              message: 'Which thread was bought instead is not said.',
              params: { accepted: 'an `insteadThreadId` with the status `instead`' },
            }),
        )
        .min(1)
        .max(200),
      sentAt: z.iso
        .datetime({ offset: true })
        .optional()
        .meta({ description: 'What that clock says now, so that one that is plainly wrong is put right.' }),
      since: z.int().min(0).default(0),
    })
    .meta({ id: 'TickShopListRequest' }),
  answer: z
    .strictObject({
      ...newsFields,
      written: z.int(),
      unknownLineIds: z.array(z.string()).meta({ description: 'No longer on the list.' }),
      held: z
        .array(z.strictObject({ lineId: z.string(), why: z.string() }))
        .meta({ description: 'Lines that stay as they were, and why: used already, promised, or the other thread is gone.' }),
    })
    .meta({ id: 'ShopListTicked' }),
  answerMeans: 'How many stand, and what is new since.',
  problems: ['not-found', 'refused'],
  example: {
    body: {
      since: 41,
      ticks: [{ lineId: 'n1', status: 'bought', paidMinor: 420, tickedAt: '2026-09-05T10:03:00.000Z', by: 'Hanne Drewitt' }],
    },
    answer: { ...exampleNews, written: 1, unknownLineIds: [], held: [] },
  },
})

export const closeBuyListOperation = operation({
  ...({ method: 'post', path: '/buy/lists/{listId}/close', id: 'closeShopList', group } as const),
  summary: 'End a list to shop by, drop it, or shop by it again',
  description: 'What was bought stays in stock; what is open is no longer counted on.',
  pathParameters: listPath,
  body: z.strictObject({ status: z.enum(shopListStatuses), by }).meta({ id: 'CloseShopListRequest' }),
  answer: detailSchema,
  answerMeans: 'The list as it now stands.',
  problems: ['not-found', 'refused'],
  example: { body: { status: 'done' }, answer: { ...exampleDetail, status: 'done' as const } },
})

export const nameUnsortedOperation = operation({
  ...({ method: 'post', path: '/buy/unsorted-place', id: 'nameUnsortedPlace', group } as const),
  summary: 'Say where bought thread goes that has no home yet',
  body: z
    .strictObject({
      label: shortText.max(100).nullable().meta({ description: 'A label that is new becomes a place; null: nowhere.' }),
    })
    .meta({ id: 'UnsortedPlaceRequest' }),
  answer: z.strictObject({ ok: z.literal(true) }).meta({ id: 'UnsortedPlaceNamed' }),
  answerMeans: 'It is done.',
  example: { body: { label: 'Bag New thread' }, answer: { ok: true } },
})

/** In the order of their page. */
export const buyListOperations = [
  listBuyListsOperation,
  keepBuyListOperation,
  getBuyListKept,
  changeBuyListOperation,
  addBuyLinesOperation,
  removeBuyLineOperation,
  getBuyTicks,
  tickBuyListOperation,
  closeBuyListOperation,
  nameUnsortedOperation,
] as const
