import { applyProjectBulkOperation, describeProjectBulkRefusal } from '#api/project-bulks'
import { endpoint, serve } from '#api/serve'
import { applyProjectBulk } from '#lib/db/project-bulk/apply-project-bulk'

const apply = serve(applyProjectBulkOperation, async ({ body }) => {
  const applied = await applyProjectBulk(body)
  return applied.ok ? applied.value : describeProjectBulkRefusal(applied.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: apply })
