import { applyBulkEditOperation, describeBulkRefusal, listBulkEditsOperation } from '#api/bulk-edits'
import { endpoint, serve } from '#api/serve'
import { applyBulkEdit } from '#lib/db/bulk-edit/apply-bulk-edit'
import { listBulkEdits } from '#lib/db/bulk-edit/queries'

const list = serve(listBulkEditsOperation, async ({ query }) => {
  const edits = await listBulkEdits(query.limit)
  return { bulkEdits: edits.map(({ id, at, ...edit }) => ({ bulkEditId: id, at: at.toISOString(), ...edit })) }
})

const apply = serve(applyBulkEditOperation, async ({ body }) => {
  const applied = await applyBulkEdit(body)
  return applied.ok ? applied.value : describeBulkRefusal(applied.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list, POST: apply })
