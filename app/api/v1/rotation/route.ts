import { describeRotation } from '#api/describe-planning'
import { chosenOwners } from '#api/owners'
import { planningOperations } from '#api/planning'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'

const get = serve(planningOperations.rotation, async ({ query }) => {
  const ownerIds = await chosenOwners(query.owner)
  return ownerIds instanceof Problem ? ownerIds : describeRotation(ownerIds)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
