import { describeKitBagProblem } from '#api/describe-kit-bags'
import { cutAgainOperation } from '#api/kit-bags'
import { endpoint, serve } from '#api/serve'
import { cutAgain } from '#lib/db/kit-bag/cut-kits'

const cut = serve(cutAgainOperation, async ({ path, body }) => {
  const done = await cutAgain({ ...path, ...body })
  return done.ok ? done.value : describeKitBagProblem(done.error, path.projectId)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: cut })
