import { describeLookUp, lookUpForDeliveryOperation } from '#api/deliveries'
import { chosenOwners } from '#api/owners'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { lookUpForDelivery } from '#lib/db/delivery/look-up'

const lookUp = serve(lookUpForDeliveryOperation, async ({ query }) => {
  const owners = await chosenOwners([query.owner])
  if (owners instanceof Problem) return owners
  return describeLookUp(await lookUpForDelivery({ text: query.text, lineId: query.line ?? null, ownerId: query.owner }))
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: lookUp })
