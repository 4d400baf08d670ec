import { describeChartBulkUndoRefusal, undoChartBulkOperation } from '#api/chart-bulks'
import { endpoint, serve } from '#api/serve'
import { undoChartBulk } from '#lib/db/chart-bulk/undo-chart-bulk'

const undo = serve(undoChartBulkOperation, async ({ path, body }) => {
  const undone = await undoChartBulk({ bulkEditId: path.bulkEditId, ...body })
  return undone.ok ? undone.value : describeChartBulkUndoRefusal(undone.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: undo })
