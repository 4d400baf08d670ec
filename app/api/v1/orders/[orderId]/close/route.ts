import { describeOrder, describeOrderRefusal } from '#api/describe-buying'
import { closeOrderOperation } from '#api/orders'
import { notFound } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { closeOrder } from '#lib/db/order/close-order'
import { findOrder } from '#lib/db/order/queries'

const close = serve(closeOrderOperation, async ({ path, body: { version, isClosed } }) => {
  const closed = await closeOrder({ orderId: path.orderId, isClosed, ...(version !== undefined && { version }) })
  if (!closed.ok) return describeOrderRefusal(closed.error)
  const order = await findOrder(path.orderId)
  return order ? { order: describeOrder(order) } : notFound('order', path.orderId)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: close })
