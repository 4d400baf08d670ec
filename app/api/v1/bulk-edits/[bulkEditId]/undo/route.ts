import { describeBulkUndoRefusal, undoBulkEditOperation } from '#api/bulk-edits'
import { endpoint, serve } from '#api/serve'
import { undoBulkEdit } from '#lib/db/bulk-edit/undo-bulk-edit'

const undo = serve(undoBulkEditOperation, async ({ path, body }) => {
  const undone = await undoBulkEdit({ bulkEditId: path.bulkEditId, ...body })
  return undone.ok ? undone.value : describeBulkUndoRefusal(undone.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: undo })
