import { z } from 'zod'
import { buyStandings } from '#lib/coverage/buy-list'
import { projectStatuses } from '#lib/project/life-cycle'
import { certainties } from '#lib/quantity/certainty'
import { movementKinds } from '#lib/stock/stock-change'
import { ownerIdsField, ownerQuery } from './collection'
import { threadRefSchema } from './cover'
import { operation } from './operation'
import { addOrders, closeOrderOperation, listOrdersOperation, receiveOrderOperation } from './orders'
import { nextField, numberedPageQuery } from './paging'
import { dateText, idText, orNull } from './quantities'
import { getReorderRule, listReorderCheck, setReorderRule } from './reorder'
import { exampleThread } from './stock'

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
