import { describeOrder, describeOrderRefusal } from '#api/describe-buying'
import { addOrders, listOrdersOperation } from '#api/orders'
import { chosenOwners } from '#api/owners'
import { nextAfter } from '#api/paging'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { orderThreads } from '#lib/db/order/order-threads'
import { listOrders } from '#lib/db/order/queries'

const list = serve(listOrdersOperation, async ({ query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const { after: offset = 0, limit, closed = false, thread } = query
  const filter = { ownerIds, isOpen: !closed, ...(thread !== undefined && { threadId: thread }) }
  const { rows, total } = await listOrders(filter, { offset, limit })
  return { ownerIds, total, orders: rows.map(describeOrder), next: nextAfter(offset + rows.length, total) }
})

const add = serve(addOrders, async ({ body }) => {
  const added = await orderThreads(body)
  return added.ok ? added.value : describeOrderRefusal(added.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list, POST: add })
