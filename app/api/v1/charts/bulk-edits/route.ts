import { applyChartBulkOperation, describeChartBulkRefusal, listChartBulksOperation } from '#api/chart-bulks'
import { designsChosen } from '#api/designs-chosen'
import { endpoint, serve } from '#api/serve'
import { applyChartBulk } from '#lib/db/chart-bulk/apply-chart-bulk'
import { listChartBulks } from '#lib/db/chart-bulk/queries'

const list = serve(listChartBulksOperation, async ({ query }) => {
  const edits = await listChartBulks(query.limit)
  return { bulkEdits: edits.map(({ id, at, ...edit }) => ({ bulkEditId: id, at: at.toISOString(), ...edit })) }
})

const apply = serve(applyChartBulkOperation, async ({ body }) => {
  const { chosen, ...request } = body
  const applied = await applyChartBulk({ ...request, designIds: await designsChosen(chosen) })
  return applied.ok ? applied.value : describeChartBulkRefusal(applied.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list, POST: apply })
