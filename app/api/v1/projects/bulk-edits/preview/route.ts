import { previewProjectBulkOperation } from '#api/project-bulks'
import { endpoint, serve } from '#api/serve'
import { previewProjectBulk } from '#lib/db/project-bulk/read-project-bulk'

const preview = serve(previewProjectBulkOperation, async ({ body }) => {
  const { lines, fingerprint } = await previewProjectBulk(body)
  return { fingerprint, lines }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: preview })
