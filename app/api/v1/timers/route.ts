import { chosenOwners } from '#api/owners'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { workOperations } from '#api/work'
import { listTimers } from '#lib/db/work/queries'

const list = serve(workOperations.timers, async ({ query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const timers = await listTimers(ownerIds)
  return {
    ownerIds,
    timers: timers.map(({ project, startedAt }) => ({
      ...{ projectId: project.id, title: project.title, startedAt: startedAt.toISOString() },
    })),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list })
