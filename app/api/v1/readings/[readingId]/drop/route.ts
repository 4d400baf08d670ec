import { chosenOwners } from '#api/owners'
import { notFound, Problem } from '#api/problem'
import { readingOperations } from '#api/readings'
import { endpoint, serve } from '#api/serve'
import { dropReading, findStagedReading } from '#lib/db/reading/reading-store'
import { stopStagedReading } from '#lib/db/reading/start-reading'

const drop = serve(readingOperations.drop, async ({ path: { readingId }, query }) => {
  const owners = await chosenOwners(query.owner)
  if (owners instanceof Problem) return owners
  if (!(await findStagedReading(readingId, owners))) return notFound('reading', readingId)
  await stopStagedReading(readingId, owners)
  await dropReading(readingId)
  return { dropped: true as const }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: drop })
