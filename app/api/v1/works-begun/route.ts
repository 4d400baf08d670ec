import { chosenOwners } from '#api/owners'
import { planningOperations } from '#api/planning'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { readWorksBegun } from '#lib/db/planning/pace/works-begun'
import { calendarDay } from '#lib/quantity/day'

const list = serve(planningOperations.begun, async ({ query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const { works, untouched, limitDays } = await readWorksBegun(ownerIds, calendarDay(new Date()))
  return {
    ...{ ownerIds, limitDays },
    works: works.map(({ id, ...work }) => ({ projectId: id, ...work })),
    untouched: untouched.map(({ work, since, days }) => ({ projectId: work.id, since, days })),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list })
