import { describeOrderRefusal } from '#api/describe-buying'
import { receiveOrderOperation } from '#api/orders'
import { endpoint, serve } from '#api/serve'
import { receiveOrder } from '#lib/db/order/receive-order'

const receive = serve(receiveOrderOperation, async ({ path, body: { version, ...body } }) => {
  const received = await receiveOrder({ ...body, orderId: path.orderId, ...(version !== undefined && { version }) })
  return received.ok ? received.value : describeOrderRefusal(received.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: receive })
