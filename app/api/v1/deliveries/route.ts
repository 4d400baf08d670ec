import { placeRef } from '#api/collection'
import { describeDeliveryRefusal, enterDeliveryOperation } from '#api/deliveries'
import { endpoint, serve } from '#api/serve'
import { enterDelivery } from '#lib/db/delivery/enter-delivery'

const enter = serve(enterDeliveryOperation, async ({ body }) => {
  const entered = await enterDelivery(body)
  if (!entered.ok) return describeDeliveryRefusal(entered.error)
  const { home, ...done } = entered.value
  return { ...done, home: placeRef(home) }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: enter })
