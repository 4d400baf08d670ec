import { z } from 'zod'
import { flagQuery, ownerIdsField, ownerQuery } from './collection'
import { threadRefSchema } from './cover'
import { operation } from './operation'
import { nextField, numberedPageQuery } from './paging'
import { dateText, idText, noteText, putUpStrandTenths, putUps, shortText, versionField } from './quantities'
import { exampleThread } from './stock'

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
