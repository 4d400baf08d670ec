import type { OrderRefused } from '#lib/db/order/order-refusal'
import type { OrderRow } from '#lib/db/order/queries'
import type { ReorderRow } from '#lib/db/reorder/reorder-check'
import { namedThread } from './describe-stock'
import { notFound, Problem } from './problem'
import { describeStockRefusal } from './stock-refusal'

export const describeOrder = ({ id, thread, ownerName: _ownerName, closedAt, ...order }: OrderRow) => ({
  ...order,
  orderId: id,
  thread: namedThread(thread),
  closedAt: closedAt?.toISOString() ?? null,
})

export const describeReorder = ({ thread, ownerId, check, abc }: ReorderRow) => ({
  ...check,
  thread: namedThread(thread),
  ownerId,
  abc,
})

/** Why an order was not changed, in words. */
export function describeOrderRefusal(refusal: OrderRefused): Problem {
  switch (refusal.kind) {
    case 'no-such-order':
      return notFound('order', refusal.orderId)
    case 'order-closed':
      return new Problem('refused', 'The order is closed: all of it has come, or no more is waited for.')
    case 'nothing-ordered':
      return new Problem('refused', 'Nothing is ordered.')
    case 'all-has-come':
      return new Problem('refused', 'All of it has come; there is nothing left to wait for.')
    case 'fewer-than-came':
      return new Problem('refused', `${refusal.receivedPutUps} have come already.`)
    case 'expected-before-ordered':
      return new Problem('refused', 'It is expected before it was ordered.')
    case 'changed-meanwhile':
      return new Problem('refused', 'It was changed meanwhile. Read it again, then ask with its new version.')
    default:
      return describeStockRefusal(refusal, 'receive')
  }
}
