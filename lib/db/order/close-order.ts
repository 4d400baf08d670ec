import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { write } from '../write'
import type { OrderRefused } from './order-refusal'

/** No longer wait for what is still to come of an order, or wait for it again. Closing what is closed already changes nothing. */
export function closeOrder(input: { orderId: string; version?: number; isClosed: boolean }): Promise<Result<null, OrderRefused>> {
  const { orderId, isClosed } = input
  return write<null, OrderRefused>(async ({ tx, at }) => {
    const order = await tx.threadOrder.findUnique({ where: { id: orderId } })
    if (!order) return refused({ kind: 'no-such-order', orderId })
    if (input.version !== undefined && input.version !== order.version) return refused({ kind: 'changed-meanwhile' })
    if ((order.closedAt !== null) === isClosed) return ok(null)
    if (!isClosed && order.receivedPutUps >= order.putUps) return refused({ kind: 'all-has-come' })
    const claimed = await tx.threadOrder.updateMany({
      where: { id: orderId, version: order.version },
      data: { version: { increment: 1 }, closedAt: isClosed ? at : null },
    })
    return claimed.count === 0 ? refused({ kind: 'changed-meanwhile' }) : ok(null)
  })
}
