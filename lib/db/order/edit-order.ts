import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { write } from '../write'
import type { OrderRefused } from './order-refusal'

/** Change what is on record of an open order; fewer than have come already cannot have been ordered. */
export function editOrder(input: {
  orderId: string
  version: number
  putUps: number
  lot: string | null
  supplier: string | null
  orderedOn: string
  expectedOn: string | null
  note: string | null
}): Promise<Result<null, OrderRefused>> {
  const { orderId, version, ...facts } = input
  return write<null, OrderRefused>(async ({ tx, at }) => {
    const order = await tx.threadOrder.findUnique({ where: { id: orderId } })
    if (!order) return refused({ kind: 'no-such-order', orderId })
    if (order.version !== version) return refused({ kind: 'changed-meanwhile' })
    if (order.closedAt !== null) return refused({ kind: 'order-closed' })
    const { putUps, orderedOn, expectedOn } = facts
    if (putUps < order.receivedPutUps) return refused({ kind: 'fewer-than-came', receivedPutUps: order.receivedPutUps })
    if (expectedOn !== null && expectedOn < orderedOn) return refused({ kind: 'expected-before-ordered', orderedOn, expectedOn })
    const hasAllCome = putUps === order.receivedPutUps
    const claimed = await tx.threadOrder.updateMany({
      where: { id: orderId, version },
      data: { ...facts, version: { increment: 1 }, closedAt: hasAllCome ? at : null },
    })
    return claimed.count === 0 ? refused({ kind: 'changed-meanwhile' }) : ok(null)
  })
}
