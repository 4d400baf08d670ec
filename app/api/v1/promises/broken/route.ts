import { describeBroken } from '#api/describe-broken'
import { chosenOwners } from '#api/owners'
import { Problem } from '#api/problem'
import { listBrokenPromisesOperation } from '#api/project-stock'
import { readThreadRefs } from '#api/read-thread-refs'
import { endpoint, serve } from '#api/serve'
import { listBrokenPromises } from '#lib/db/stock/broken-promises'

const list = serve(listBrokenPromisesOperation, async ({ query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const [broken, refOf] = await Promise.all([listBrokenPromises({ ownerIds }), readThreadRefs()])
  return { ownerIds, promises: broken.map((promise) => describeBroken(promise, refOf)) }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list })
