import { applyNewHomeOperation, describeNewHomeRefusal } from '#api/new-homes'
import { endpoint, serve } from '#api/serve'
import { applyNewHome } from '#lib/db/new-home/apply-new-home'

const apply = serve(applyNewHomeOperation, async ({ body }) => {
  const applied = await applyNewHome(body)
  return applied.ok ? applied.value : describeNewHomeRefusal(applied.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: apply })
