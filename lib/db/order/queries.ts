import 'server-only'
import type { ToCome } from '#lib/coverage/buy-list'
import { compareExact } from '#lib/stock/batch'
import { database } from '../client'
import type { Prisma } from '../generated/sqlite/client'
import { type BoughtThread, byMakerAndCode, readBoughtThreads } from './bought-threads'

export type OrderFacts = {
  id: string
  version: number
  ownerId: string
  putUpStrandTenths: number
  putUps: number
  receivedPutUps: number
  lot: string | null
  supplier: string | null
  /** yyyy-mm-dd */
  orderedOn: string
  expectedOn: string | null
  note: string | null
  closedAt: Date | null
}

export type OrderRow = OrderFacts & { ownerName: string; thread: BoughtThread }

const orderColumns = {
  id: true,
  version: true,
  threadId: true,
  ownerId: true,
  putUpStrandTenths: true,
  putUps: true,
  receivedPutUps: true,
  lot: true,
  supplier: true,
  orderedOn: true,
  expectedOn: true,
  note: true,
  closedAt: true,
} as const satisfies Prisma.ThreadOrderSelect

/** What is still to come of an order; nothing once it is closed. */
export const putUpsToCome = (order: Pick<OrderFacts, 'putUps' | 'receivedPutUps' | 'closedAt'>): number =>
  order.closedAt === null ? Math.max(0, order.putUps - order.receivedPutUps) : 0

type OrderFilter = { ownerIds: readonly string[]; isOpen: boolean; threadId?: string }

/**
 * A page of orders: open ones by maker and code, then the older; closed ones, the latest closed first.
 *
 * Codes are ordered as in a drawer, which no database does, so all that are open are read: a shop has some hundreds at a time.
 */
export async function listOrders(
  filter: OrderFilter,
  page: { offset: number; limit: number },
): Promise<{ rows: OrderRow[]; total: number }> {
  const { prisma } = database()
  const where = {
    ownerId: { in: [...filter.ownerIds] },
    closedAt: filter.isOpen ? null : { not: null },
    ...(filter.threadId !== undefined && { threadId: filter.threadId }),
  } satisfies Prisma.ThreadOrderWhereInput
  const [total, orders, owners] = await Promise.all([
    prisma.threadOrder.count({ where }),
    prisma.threadOrder.findMany({
      where,
      select: orderColumns,
      orderBy: [{ closedAt: 'desc' }, { id: 'asc' }],
      ...(!filter.isOpen && { skip: page.offset, take: page.limit }),
    }),
    prisma.owner.findMany({ select: { id: true, name: true } }),
  ])
  const threads = await readBoughtThreads({ orders: { some: where } })
  const nameOf = new Map(owners.map(({ id, name }) => [id, name]))
  const rows = orders.map(({ threadId, ...order }) => ({
    ...order,
    ownerName: nameOf.get(order.ownerId) ?? '',
    thread: threads.get(threadId) as BoughtThread,
  }))
  if (!filter.isOpen) return { rows, total }
  rows.sort((a, b) => byMakerAndCode(a.thread, b.thread) || compareExact(a.orderedOn, b.orderedOn) || compareExact(a.id, b.id))
  return { rows: rows.slice(page.offset, page.offset + page.limit), total }
}

export async function findOrder(orderId: string): Promise<OrderRow | null> {
  const row = await database().prisma.threadOrder.findUnique({
    where: { id: orderId },
    select: { ...orderColumns, owner: { select: { name: true } } },
  })
  if (!row) return null
  const { threadId, owner, ...order } = row
  const threads = await readBoughtThreads({ id: threadId })
  return { ...order, ownerName: owner.name, thread: threads.get(threadId) as BoughtThread }
}

/** What these owners wait for, by thread. */
export async function readToCome(ownerIds: readonly string[]): Promise<Map<string, (ToCome & { ownerId: string })[]>> {
  const orders = await database().prisma.threadOrder.findMany({
    where: { ownerId: { in: [...ownerIds] }, closedAt: null },
    select: orderColumns,
    orderBy: { id: 'asc' },
  })
  const byThread = new Map<string, (ToCome & { ownerId: string })[]>()
  for (const order of orders) {
    const putUps = putUpsToCome(order)
    if (putUps === 0) continue
    const { id: orderId, threadId, ownerId, putUpStrandTenths, lot } = order
    byThread.set(threadId, [...(byThread.get(threadId) ?? []), { orderId, ownerId, putUpStrandTenths, putUps, lot }])
  }
  return byThread
}
