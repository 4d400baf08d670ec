import { placeProblem } from '#api/place-changes'
import { orderPlacesOperation } from '#api/place-writes'
import { endpoint, serve } from '#api/serve'
import { orderPlaces } from '#lib/db/place/order-places'

const order = serve(orderPlacesOperation, async ({ body }) => {
  const ordered = await orderPlaces(body)
  return ordered.ok ? ordered.value : placeProblem(ordered.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: order })
