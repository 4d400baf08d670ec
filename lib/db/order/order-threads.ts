import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { newId } from '../new-id'
import { hasOwner } from '../stock/change-batch'
import { write } from '../write'
import { inParts } from './bought-threads'
import type { OrderRefused } from './order-refusal'

export type OrderedItem = {
  /** Made beforehand by whoever asks, so that the same order sent twice is one order; left out, it is made here. */
  orderId?: string
  threadId: string
  putUps: number
  /** Null: the put-up its line is sold in. */
  putUpStrandTenths?: number | null
  lot?: string | null
}

/**
 * Put down what was ordered, an order for each thread. Items whose id is on record already are passed over, so that asking again
 * changes nothing.
 *
 * @returns the ids in the order of the items.
 * @throws {RangeError} if a number of put-ups is not a whole number above nought.
 */
export function orderThreads(input: {
  ownerId: string
  supplier: string | null
  orderedOn: string
  expectedOn: string | null
  note?: string | null
  items: readonly OrderedItem[]
}): Promise<Result<{ orderIds: string[] }, OrderRefused>> {
  const { ownerId, supplier, orderedOn, expectedOn, note = null } = input
  const bad = input.items.find(({ putUps }) => !Number.isSafeInteger(putUps) || putUps < 1)
  if (bad) throw new RangeError(`orderThreads: ${bad.putUps} put-ups`)
  return write<{ orderIds: string[] }, OrderRefused>(async ({ tx }) => {
    const items = input.items.map((item) => ({ ...item, id: item.orderId ?? newId() }))
    if (items.length === 0) return refused({ kind: 'nothing-ordered' })
    if (expectedOn !== null && expectedOn < orderedOn) return refused({ kind: 'expected-before-ordered', orderedOn, expectedOn })
    if (!(await hasOwner(tx, ownerId))) return refused({ kind: 'no-such-owner', ownerId })
    const threads = await inParts([...new Set(items.map(({ threadId }) => threadId))], (ids) =>
      tx.thread.findMany({ where: { id: { in: ids }, goneAt: null }, select: { id: true, lineId: true } }),
    )
    const lines = await tx.threadLine.findMany({ select: { id: true, putUpStrandTenths: true } })
    const putUpOf = new Map(lines.map((line) => [line.id, line.putUpStrandTenths]))
    const lineOf = new Map(threads.map(({ id, lineId }) => [id, lineId]))
    const missing = items.find(({ threadId }) => !lineOf.has(threadId))
    if (missing) return refused({ kind: 'no-such-thread', threadId: missing.threadId })
    const known = await inParts(
      items.map(({ id }) => id),
      (ids) => tx.threadOrder.findMany({ where: { id: { in: ids } }, select: { id: true } }),
    )
    const knownIds = new Set(known.map(({ id }) => id))
    await tx.threadOrder.createMany({
      data: items
        .filter(({ id }) => !knownIds.has(id))
        .map(({ id, threadId, putUps, putUpStrandTenths, lot = null }) => ({
          ...{ id, threadId, ownerId, putUps, lot, supplier, orderedOn, expectedOn, note },
          putUpStrandTenths: putUpStrandTenths ?? (putUpOf.get(lineOf.get(threadId) as string) as number),
        })),
    })
    return ok({ orderIds: items.map(({ id }) => id) })
  })
}
