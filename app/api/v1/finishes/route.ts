import { describeUnframed } from '#api/describe-finish'
import { finishOperations } from '#api/finishes'
import { chosenOwners } from '#api/owners'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { listUnframed } from '#lib/db/finish/list-unframed'
import { listFinishes } from '#lib/db/project/queries'

const get = serve(finishOperations.list, async ({ query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const [{ years }, unframed] = await Promise.all([listFinishes({ ownerIds, page: 1, perPage: 1 }), listUnframed(ownerIds)])
  return { ownerIds, years, unframed: unframed.map(describeUnframed) }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
