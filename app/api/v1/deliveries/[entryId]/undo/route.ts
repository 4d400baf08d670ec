import { describeUndoRefusal, undoDeliveryOperation } from '#api/deliveries'
import { endpoint, serve } from '#api/serve'
import { undoDelivery } from '#lib/db/delivery/undo-delivery'

const undo = serve(undoDeliveryOperation, async ({ path, body }) => {
  const undone = await undoDelivery({ entryId: path.entryId, ...body })
  return undone.ok ? undone.value : describeUndoRefusal(undone.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: undo })
