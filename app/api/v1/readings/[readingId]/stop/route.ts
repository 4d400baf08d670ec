import { readingNow } from '#api/describe-reading'
import { chosenOwners } from '#api/owners'
import { Problem } from '#api/problem'
import { readingOperations } from '#api/readings'
import { endpoint, serve } from '#api/serve'
import { stopStagedReading } from '#lib/db/reading/start-reading'

const stop = serve(readingOperations.stop, async ({ path: { readingId }, query }) => {
  const owners = await chosenOwners(query.owner)
  if (owners instanceof Problem) return owners
  await stopStagedReading(readingId, owners)
  return readingNow(readingId, owners)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: stop })
