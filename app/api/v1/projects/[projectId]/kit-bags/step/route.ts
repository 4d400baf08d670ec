import { describeKitBagProblem } from '#api/describe-kit-bags'
import { stepKitBagsOperation } from '#api/kit-bags'
import { endpoint, serve } from '#api/serve'
import { stepBags } from '#lib/db/kit-bag/step-bags'

const step = serve(stepKitBagsOperation, async ({ path, body }) => {
  const done = await stepBags({ ...path, ...body })
  return done.ok ? done.value : describeKitBagProblem(done.error, path.projectId)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: step })
