import { readingNow } from '#api/describe-reading'
import { chosenOwners } from '#api/owners'
import { Problem } from '#api/problem'
import { readingOperations } from '#api/readings'
import { endpoint, serve } from '#api/serve'

const get = serve(readingOperations.get, async ({ path, query }) => {
  const owners = await chosenOwners(query.owner)
  return owners instanceof Problem ? owners : readingNow(path.readingId, owners)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
