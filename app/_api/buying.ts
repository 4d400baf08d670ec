import { z } from 'zod'
import { buyStandings } from '#lib/coverage/buy-list'
import { projectStatuses } from '#lib/project/life-cycle'
import { certainties } from '#lib/quantity/certainty'
import { abcClasses } from '#lib/stock/abc'
import { movementKinds } from '#lib/stock/stock-change'
import { flagQuery, ownerIdsField, ownerQuery } from './collection'
import { threadRefSchema } from './cover'
import { operation } from './operation'
import { nextField, numberedPageQuery } from './paging'
import { dateText, idText, noteText, orNull, putUpStrandTenths, shortText } from './quantities'
import { exampleThread } from './stock'

const putUps = z.int().min(1).max(10_000)
const versionField = z.int().min(0).optional().meta({ description: 'The version last seen; left out, it is taken as it stands.' })

const buyLineSchema = z
  .strictObject({
    thread: threadRefSchema,
    standing: z.enum(buyStandings).meta({
      description:
        'buy: to be bought. The others need buying only if something at hand will not do: lots, enough but of no one lot; out, enough is out and promised to nobody; unknown, a part nobody has measured may be enough; swap, an accepted stand-in is held. covered: nothing.',
    }),
    uses: z.array(
      z.strictObject({
        designId: z.string(),
        projectId: z.string().nullable(),
        needStrandTenths: z.int(),
        promisedStrandTenths: z.int(),
      }),
    ),
    needStrandTenths: z.int().meta({ description: 'All uses together, before anything is rounded.' }),
    promisedStrandTenths: z.int().meta({ description: 'Promised to these very projects.' }),
    freeStrandTenths: z.int(),
    outStrandTenths: z.int(),
    onOrderStrandTenths: z.int(),
    onListStrandTenths: z.int().meta({ description: 'On lists somebody shops by, and not bought yet; counted on.' }),
    shortStrandTenths: z.int(),
    putUpStrandTenths: z.int(),
    putUps: z.int().meta({ description: 'Whole put-ups, as the line has them, that hold what is short.' }),
    cutStrandTenths: z.number().nullable().meta({ description: 'The longest cut of a kit, which has no join.' }),
    mix: orNull(
      z.strictObject({
        parts: z.array(
          z.strictObject({
            offerId: z.string().nullable().meta({ description: 'Null: as the line says it is sold.' }),
            supplier: z.string().nullable(),
            putUpWord: z.string().nullable(),
            putUpStrandTenths: z.int(),
            packPutUps: z.int(),
            priceMinor: z.int().nullable().meta({ description: 'Of one pack.' }),
            packs: z.int(),
          }),
        ),
        putUps: z.int(),
        strandTenths: z.int(),
        priceMinor: z.int().nullable(),
        by: z
          .enum(['price', 'put-ups'])
          .meta({ description: 'put-ups: not every way it is sold has a price, so it is the fewest.' }),
      }),
    ).meta({ description: 'The cheapest lengths and packs that hold what is short; where lots matter, one of them alone.' }),
    listed: z
      .array(z.strictObject({ listId: z.string(), title: z.string(), putUps: z.int() }))
      .meta({ description: 'Lists somebody shops by that it is on.' }),
    sameLot: orNull(z.strictObject({ lot: z.string().nullable(), newLotPutUps: z.int(), sparePutUps: z.int() })).meta({
      description: 'Where lots matter: the lot to go with, null for a new one, how many of a new one, and the usual spare.',
    }),
    otherPutUps: z.array(z.strictObject({ putUpStrandTenths: z.int(), putUps: z.int() })),
    standIn: orNull(threadRefSchema),
    certainty: z.enum(certainties),
  })
  .meta({ id: 'BuyLine' })

const exampleLine = {
  thread: exampleThread,
  standing: 'buy',
  uses: [{ designId: 'd1', projectId: null, needStrandTenths: 700_000, promisedStrandTenths: 0 }],
  needStrandTenths: 700_000,
  promisedStrandTenths: 0,
  freeStrandTenths: 480_000,
  outStrandTenths: 0,
  onOrderStrandTenths: 0,
  onListStrandTenths: 0,
  shortStrandTenths: 220_000,
  putUpStrandTenths: 480_000,
  putUps: 1,
  cutStrandTenths: null,
  mix: {
    parts: [
      {
        ...{ offerId: null, supplier: null, putUpWord: null, putUpStrandTenths: 480_000, packPutUps: 1, priceMinor: 150 },
        packs: 1,
      },
    ],
    ...{ putUps: 1, strandTenths: 480_000, priceMinor: 150, by: 'price' },
  },
  listed: [],
  sameLot: null,
  otherPutUps: [],
  standIn: null,
  certainty: 'measured',
} as const

const manyIds = (what: string) => z.array(idText).max(50).optional().meta({ description: what })

export const getBuyList = operation({
  method: 'get',
  path: '/buy/list',
  id: 'getBuyList',
  group: 'Stock',
  summary: 'What to buy for several designs and projects together',
  description:
    'By maker and code. Needs are summed over all of them before anything is rounded to put-ups; what is free and on order is taken off once; swaps are not assumed.',
  query: z.strictObject({
    design: manyIds('Designs to buy for.'),
    list: manyIds('Thread lists to reckon them by; else those that take the least buying for all of them together.'),
    project: manyIds('Projects to buy for, each on its own cloth and with its own swaps, all of a kit batch.'),
    ...ownerQuery,
  }),
  answer: z
    .strictObject({
      ownerIds: ownerIdsField,
      wants: z.array(
        z.strictObject({
          designId: z.string(),
          title: z.string(),
          projectId: z.string().nullable(),
          listId: z.string().nullable(),
          listBy: z
            .enum(['only', 'asked', 'least', 'least found', 'project'])
            .meta({ description: 'least: of all ways it takes the least buying; least found: the least that was found.' }),
          isIncomplete: z.boolean(),
        }),
      ),
      lines: z.array(buyLineSchema),
    })
    .meta({ id: 'BuyList' }),
  answerMeans: 'A line for every thread needed, covered ones too. What is not on record is left out of `wants`.',
  example: {
    answer: {
      ownerIds: ['o1'],
      wants: [{ designId: 'd1', title: 'Rook Hill in Snow', projectId: null, listId: 'l1', listBy: 'only', isIncomplete: false }],
      lines: [exampleLine],
    },
  },
})

const hundredths = z.int().min(0).max(1_000_000)
const weeks = z.int().min(0).max(104)
const packPutUps = putUps.default(1)
const ruleSchema = z
  .discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('minimum'), minimumPutUps: z.int().min(0).max(10_000), packPutUps }),
    z.strictObject({
      kind: z.literal('point'),
      demandHundredths: hundredths,
      spreadHundredths: hundredths,
      leadWeeks: weeks,
      coverWeeks: weeks.default(4),
      packPutUps,
    }),
  ])
  .meta({ id: 'ReorderRule', description: 'Demand and spread are hundredths of a put-up a week.' })

const reorderRowSchema = z
  .strictObject({
    thread: threadRefSchema,
    ownerId: z.string(),
    rule: ruleSchema,
    source: z.enum(['owner', 'thread', 'lots']).meta({ description: 'lots: the usual minimum of a line whose lots matter.' }),
    ownedPutUps: z.int(),
    outPutUps: z.int(),
    promisedPutUps: z.int(),
    freePutUps: z.int(),
    unmetPutUps: z.int().meta({ description: 'Promised beyond what is there.' }),
    onOrderPutUps: z.int(),
    positionPutUps: z.int(),
    point: orNull(z.strictObject({ leadPutUps: z.number(), safetyPutUps: z.number(), putUps: z.int() })),
    serviceFactor: z.number(),
    thresholdPutUps: z.int(),
    isDue: z.boolean(),
    upToPutUps: z.int(),
    wantedPutUps: z.int(),
    packs: z.int(),
    orderPutUps: z.int(),
    certainty: z.enum(certainties),
    abc: orNull(z.strictObject({ class: z.enum(abcClasses), by: z.enum(['value', 'length']), sharePerMille: z.int() })),
  })
  .meta({ id: 'ReorderCheck' })

const exampleCheck = {
  thread: exampleThread,
  ownerId: 'o1',
  rule: { kind: 'point', demandHundredths: 600, spreadHundredths: 250, leadWeeks: 3, coverWeeks: 4, packPutUps: 12 },
  source: 'owner',
  ownedPutUps: 40,
  outPutUps: 0,
  promisedPutUps: 15,
  freePutUps: 25,
  unmetPutUps: 0,
  onOrderPutUps: 0,
  positionPutUps: 25,
  point: { leadPutUps: 18, safetyPutUps: 7.144709581221619, putUps: 26 },
  serviceFactor: 1.65,
  thresholdPutUps: 26,
  isDue: true,
  upToPutUps: 50,
  wantedPutUps: 25,
  packs: 3,
  orderPutUps: 36,
  certainty: 'estimated',
  abc: { class: 'A', by: 'value', sharePerMille: 310 },
} as const

export const listReorderCheck = operation({
  method: 'get',
  path: '/buy/reorder',
  id: 'listReorderCheck',
  group: 'Stock',
  summary: 'Threads held against their minimum or reorder point',
  description: 'By maker and code, each owner apart. What is promised to kits is not free; what is on order counts as here.',
  query: z.strictObject({
    due: flagQuery.optional().meta({ description: 'Only what is to be ordered.' }),
    ...ownerQuery,
    ...numberedPageQuery,
  }),
  answer: z
    .strictObject({ ownerIds: ownerIdsField, total: z.int(), checks: z.array(reorderRowSchema), next: nextField })
    .meta({ id: 'ReorderCheckList' }),
  answerMeans: 'A page of threads that have a rule.',
  example: { answer: { ownerIds: ['o1'], total: 1, checks: [exampleCheck], next: null } },
})

export const getReorderRule = operation({
  method: 'get',
  path: '/threads/{threadId}/reorder',
  id: 'getReorderRule',
  group: 'Stock',
  summary: 'When one owner buys a thread again',
  pathParameters: z.strictObject({ threadId: idText }),
  query: z.strictObject({
    owner: idText.optional().meta({ description: 'The first owner of the collection when none is named.' }),
  }),
  answer: z
    .strictObject({
      ownerId: z.string(),
      own: orNull(z.strictObject({ rule: ruleSchema, version: z.int() })),
      check: orNull(reorderRowSchema),
      sales: orNull(
        z.strictObject({
          weeks: z.int(),
          soldPutUps: z.number(),
          demandHundredths: z.int(),
          spreadHundredths: z.int(),
        }),
      ).meta({ description: 'Counter sales by the journal, a suggestion and no more; null when there are too few to go by.' }),
    })
    .meta({ id: 'ReorderRuleAnswer' }),
  answerMeans: 'The owner’s own rule, what holds now, and what the journal suggests.',
  problems: ['not-found'],
  example: {
    answer: {
      ownerId: 'o1',
      own: { rule: exampleCheck.rule, version: 0 },
      check: exampleCheck,
      sales: { weeks: 26, soldPutUps: 151, demandHundredths: 581, spreadHundredths: 240 },
    },
  },
})

export const setReorderRule = operation({
  method: 'post',
  path: '/threads/{threadId}/reorder',
  id: 'setReorderRule',
  group: 'Stock',
  summary: 'Set or take away an owner’s rule for a thread',
  pathParameters: z.strictObject({ threadId: idText }),
  body: z
    .strictObject({
      ownerId: idText,
      version: z.int().min(0).nullable().meta({ description: 'Of the rule last seen; null when there was none.' }),
      rule: orNull(ruleSchema).meta({ description: 'Null takes it away.' }),
    })
    .meta({ id: 'ReorderRuleRequest' }),
  answer: z.strictObject({ ok: z.literal(true) }).meta({ id: 'ReorderRuleSet' }),
  answerMeans: 'It is done.',
  problems: ['refused', 'not-found'],
  example: { body: { ownerId: 'o1', version: null, rule: exampleCheck.rule }, answer: { ok: true } },
})

const orderSchema = z
  .strictObject({
    orderId: z.string(),
    version: z.int(),
    thread: threadRefSchema,
    ownerId: z.string(),
    putUpStrandTenths: z.int(),
    putUps: z.int(),
    receivedPutUps: z.int(),
    lot: z.string().nullable(),
    supplier: z.string().nullable(),
    orderedOn: z.string(),
    expectedOn: z.string().nullable(),
    note: z.string().nullable(),
    closedAt: z.string().nullable().meta({ description: 'ISO 8601, UTC; null while some is waited for.' }),
  })
  .meta({ id: 'ThreadOrder' })

const exampleOrder = {
  orderId: '0199a1c2-7c1e-7d10-9c55-0d6f1a2b3c4d',
  version: 0,
  thread: exampleThread,
  ownerId: 'o1',
  putUpStrandTenths: 480_000,
  putUps: 36,
  receivedPutUps: 0,
  lot: null,
  supplier: 'Larkholm',
  orderedOn: '2026-09-01',
  expectedOn: '2026-09-22',
  note: null,
  closedAt: null,
}

export const listOrdersOperation = operation({
  method: 'get',
  path: '/orders',
  id: 'listOrders',
  group: 'Stock',
  summary: 'What is on order',
  description: 'Open orders by maker and code; closed ones, the latest closed first.',
  query: z.strictObject({
    closed: flagQuery.optional().meta({ description: 'true: closed orders instead.' }),
    thread: idText.optional(),
    ...ownerQuery,
    ...numberedPageQuery,
  }),
  answer: z
    .strictObject({ ownerIds: ownerIdsField, total: z.int(), orders: z.array(orderSchema), next: nextField })
    .meta({ id: 'OrderList' }),
  answerMeans: 'A page of orders.',
  example: { answer: { ownerIds: ['o1'], total: 1, orders: [exampleOrder], next: null } },
})

export const addOrders = operation({
  method: 'post',
  path: '/orders',
  id: 'addOrders',
  group: 'Stock',
  summary: 'Put down what was ordered',
  body: z
    .strictObject({
      ownerId: idText,
      supplier: shortText.nullable().default(null),
      orderedOn: dateText,
      expectedOn: dateText.nullable().default(null),
      note: noteText.nullable().default(null),
      items: z
        .array(
          z.strictObject({
            threadId: idText,
            putUps,
            putUpStrandTenths: putUpStrandTenths
              .nullable()
              .default(null)
              .meta({ description: 'Null for the line’s own put-up.' }),
            lot: shortText.nullable().default(null),
          }),
        )
        .min(1)
        .max(500),
    })
    .meta({ id: 'OrderRequest' }),
  answerStatus: 201,
  answer: z.strictObject({ orderIds: z.array(z.string()) }).meta({ id: 'OrdersAdded' }),
  answerMeans: 'An order for each item, in their order.',
  problems: ['refused'],
  takesIdempotencyKey: true,
  example: {
    body: { ownerId: 'o1', supplier: 'Larkholm', orderedOn: '2026-09-01', items: [{ threadId: 't1', putUps: 36 }] },
    answer: { orderIds: [exampleOrder.orderId] },
  },
})

export const receiveOrderOperation = operation({
  method: 'post',
  path: '/orders/{orderId}/receive',
  id: 'receiveOrder',
  group: 'Stock',
  summary: 'Take in what came of an order',
  description: 'Into stock and off the order in one. The order is closed with the last of it, or when no more is waited for.',
  pathParameters: z.strictObject({ orderId: idText }),
  body: z
    .strictObject({
      version: versionField,
      putUps,
      lot: shortText.nullable().default(null),
      putUpStrandTenths: putUpStrandTenths.nullable().default(null).meta({ description: 'Null: as ordered.' }),
      homePlaceId: idText.nullable(),
      closes: z.boolean().default(false).meta({ description: 'Whatever is still wanting is not waited for.' }),
      who: shortText.nullable().default(null),
      reason: shortText.nullable().default(null),
    })
    .meta({ id: 'OrderReceipt' }),
  answerStatus: 201,
  answer: z.strictObject({ batchId: z.string(), revision: z.int(), isClosed: z.boolean() }).meta({ id: 'OrderReceived' }),
  answerMeans: 'The batch it lies in now.',
  problems: ['refused', 'not-found'],
  takesIdempotencyKey: true,
  example: {
    body: { version: 0, putUps: 12, lot: '18', homePlaceId: 'p2' },
    answer: { batchId: 'b1', revision: 414, isClosed: false },
  },
})

export const closeOrderOperation = operation({
  method: 'post',
  path: '/orders/{orderId}/close',
  id: 'closeOrder',
  group: 'Stock',
  summary: 'No longer wait for an order, or wait for it again',
  pathParameters: z.strictObject({ orderId: idText }),
  body: z.strictObject({ version: versionField, isClosed: z.boolean().default(true) }).meta({ id: 'OrderClosing' }),
  answer: z.strictObject({ order: orderSchema }).meta({ id: 'OrderClosed' }),
  answerMeans: 'The order as it is now.',
  problems: ['refused', 'not-found'],
  example: {
    body: { version: 0 },
    answer: { order: { ...exampleOrder, version: 1, closedAt: '2026-09-30T08:00:00.000Z' } },
  },
})

export const listRunOuts = operation({
  method: 'get',
  path: '/buy/ran-out',
  id: 'listRunOuts',
  group: 'Stock',
  summary: 'Threads that ran out between two days',
  query: z.strictObject({
    since: dateText.meta({ description: 'From the start of this day, UTC.' }),
    before: dateText.meta({ description: 'Up to the start of this day, UTC.' }),
    ...ownerQuery,
  }),
  answer: z
    .strictObject({
      ownerIds: ownerIdsField,
      threads: z.array(
        z.strictObject({
          thread: threadRefSchema,
          at: z.string(),
          kind: z.enum(movementKinds),
          isHeldAgain: z.boolean(),
          onOrderPutUps: z.int(),
        }),
      ),
    })
    .meta({ id: 'RunOutList' }),
  answerMeans: 'The latest first.',
  example: {
    answer: {
      ownerIds: ['o1'],
      threads: [{ thread: exampleThread, at: '2026-09-08T09:30:00.000Z', kind: 'use', isHeldAgain: false, onOrderPutUps: 0 }],
    },
  },
})

export const listMissing = operation({
  method: 'get',
  path: '/buy/missing',
  id: 'listMissing',
  group: 'Stock',
  summary: 'Threads of a line that are not held',
  query: z.strictObject({ line: idText, ...ownerQuery }),
  answer: z
    .strictObject({
      ownerIds: ownerIdsField,
      threadCount: z.int().meta({ description: 'Threads of the line on record.' }),
      missing: z.array(z.strictObject({ thread: threadRefSchema, designCount: z.int(), onOrderPutUps: z.int() })),
    })
    .meta({ id: 'MissingList' }),
  answerMeans: 'In the order of a drawer, with how many designs name each.',
  problems: ['not-found'],
  example: {
    answer: { ownerIds: ['o1'], threadCount: 480, missing: [{ thread: exampleThread, designCount: 12, onOrderPutUps: 0 }] },
  },
})

export const listLeaving = operation({
  method: 'get',
  path: '/buy/leaving',
  id: 'listLeaving',
  group: 'Stock',
  summary: 'Threads leaving the range, and what still needs them',
  query: z.strictObject({ ...ownerQuery, ...numberedPageQuery }),
  answer: z
    .strictObject({
      ownerIds: ownerIdsField,
      total: z.int(),
      threads: z.array(
        z.strictObject({
          thread: threadRefSchema,
          designCount: z.int(),
          uses: z.array(
            z.strictObject({
              designId: z.string(),
              title: z.string(),
              projectId: z.string().nullable(),
              status: orNull(z.enum(projectStatuses)),
              needStrandTenths: z.int(),
            }),
          ),
          shortPutUpsForProjects: z.int(),
          shortPutUpsForAll: z.int(),
        }),
      ),
      next: nextField,
    })
    .meta({ id: 'LeavingList' }),
  answerMeans: 'Projects wanted or under way first, then the designs first by title.',
  example: {
    answer: {
      ownerIds: ['o1'],
      total: 1,
      threads: [
        {
          thread: exampleThread,
          designCount: 1,
          uses: [{ designId: 'd1', title: 'Rook Hill in Snow', projectId: 'j1', status: 'wanted', needStrandTenths: 700_000 }],
          shortPutUpsForProjects: 1,
          shortPutUpsForAll: 1,
        },
      ],
      next: null,
    },
  },
})

/** In the order of their page. */
export const buyingOperations = [
  getBuyList,
  listReorderCheck,
  getReorderRule,
  setReorderRule,
  listOrdersOperation,
  addOrders,
  receiveOrderOperation,
  closeOrderOperation,
  listRunOuts,
  listMissing,
  listLeaving,
] as const
