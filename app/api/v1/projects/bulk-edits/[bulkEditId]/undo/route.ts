import { describeProjectBulkUndoRefusal, undoProjectBulkOperation } from '#api/project-bulks'
import { endpoint, serve } from '#api/serve'
import { undoProjectBulk } from '#lib/db/project-bulk/undo-project-bulk'

const undo = serve(undoProjectBulkOperation, async ({ path }) => {
  const undone = await undoProjectBulk(path)
  return undone.ok ? undone.value : describeProjectBulkUndoRefusal(undone.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: undo })
