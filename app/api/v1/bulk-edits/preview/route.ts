import { describeBulkLine, previewBulkEditOperation } from '#api/bulk-edits'
import { endpoint, serve } from '#api/serve'
import { previewBulkEdit } from '#lib/db/bulk-edit/read-bulk-edit'

const preview = serve(previewBulkEditOperation, async ({ body }) => {
  const { plan, fingerprint } = await previewBulkEdit({ ...body, what: 'preview' })
  return { fingerprint, lines: plan.lines.map(describeBulkLine) }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: preview })
