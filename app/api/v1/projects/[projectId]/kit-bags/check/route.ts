import { describeKitBagProblem } from '#api/describe-kit-bags'
import { markKitBagsOperation } from '#api/kit-bags'
import { endpoint, serve } from '#api/serve'
import { markBags } from '#lib/db/kit-bag/mark-bags'

const check = serve(markKitBagsOperation, async ({ path, body }) => {
  const done = await markBags({ ...path, ...body })
  return done.ok ? done.value : describeKitBagProblem(done.error, path.projectId)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: check })
