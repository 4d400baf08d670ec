import { describeYear } from '#api/describe-finish'
import { finishOperations } from '#api/finishes'
import { chosenOwners } from '#api/owners'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { readYear } from '#lib/db/finish/read-finishes'

const get = serve(finishOperations.year, async ({ path, query }) => {
  const ownerIds = await chosenOwners(query.owner)
  return ownerIds instanceof Problem ? ownerIds : describeYear(ownerIds, await readYear(ownerIds, path.year))
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
