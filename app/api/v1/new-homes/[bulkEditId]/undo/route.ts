import { describeNewHomeUndoRefusal, undoNewHomeOperation } from '#api/new-homes'
import { endpoint, serve } from '#api/serve'
import { undoNewHome } from '#lib/db/new-home/undo-new-home'

const undo = serve(undoNewHomeOperation, async ({ path, body }) => {
  const undone = await undoNewHome({ bulkEditId: path.bulkEditId, ...body })
  return undone.ok ? undone.value : describeNewHomeUndoRefusal(undone.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: undo })
