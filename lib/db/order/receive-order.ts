import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import type { StockChanged } from '../stock/change-batch'
import { receiveWithin } from '../stock/receive-thread'
import { write } from '../write'
import type { OrderRefused } from './order-refusal'

/**
 * Take in what came of an order, in one write with the order itself: it is closed once as much has come as was ordered, or when no
 * more is waited for. More than was ordered may come.
 *
 * @param input.version            what the person saw; left out, the order is taken as it stands
 * @param input.putUpStrandTenths  null: as ordered
 * @param input.closes             whatever is still wanting is not waited for
 * @throws {RangeError} if the number of put-ups is not a whole number above nought.
 */
export function receiveOrder(input: {
  orderId: string
  version?: number
  putUps: number
  lot: string | null
  putUpStrandTenths?: number | null
  homePlaceId: string | null
  homePlaceLabel?: string
  closes: boolean
  reason?: string | null
  who?: string | null
}): Promise<Result<StockChanged & { isClosed: boolean }, OrderRefused>> {
  const { orderId, putUps, lot, homePlaceId, homePlaceLabel, reason, who } = input
  if (!Number.isSafeInteger(putUps) || putUps < 1) throw new RangeError(`receiveOrder: ${putUps} put-ups`)
  return write<StockChanged & { isClosed: boolean }, OrderRefused>(async (writing) => {
    const { tx, at } = writing
    const order = await tx.threadOrder.findUnique({ where: { id: orderId } })
    if (!order) return refused({ kind: 'no-such-order', orderId })
    if (input.version !== undefined && input.version !== order.version) return refused({ kind: 'changed-meanwhile' })
    if (order.closedAt !== null) return refused({ kind: 'order-closed' })
    const isClosed = input.closes || order.receivedPutUps + putUps >= order.putUps
    const claimed = await tx.threadOrder.updateMany({
      where: { id: orderId, version: order.version },
      data: { version: { increment: 1 }, receivedPutUps: { increment: putUps }, closedAt: isClosed ? at : null },
    })
    if (claimed.count === 0) return refused({ kind: 'changed-meanwhile' })
    const received = await receiveWithin(writing, {
      threadId: order.threadId,
      ownerId: order.ownerId,
      lot,
      putUpStrandTenths: input.putUpStrandTenths ?? order.putUpStrandTenths,
      wholePutUps: putUps,
      partStrandTenths: 0,
      partCertainty: 'none',
      homePlaceId,
      ...(homePlaceLabel !== undefined && { homePlaceLabel }),
      reason,
      who,
    })
    return received.ok ? ok({ ...received.value, isClosed }) : received
  })
}
