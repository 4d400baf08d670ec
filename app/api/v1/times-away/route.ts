import { answerTimesAway, describeTimesAway } from '#api/describe-planning'
import { chosenOwners } from '#api/owners'
import { planningOperations } from '#api/planning'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { saveTimeAway } from '#lib/db/planning/days/save-time-away'

const list = serve(planningOperations.timesAway, async ({ query }) => {
  const ownerIds = await chosenOwners(query.owner)
  return ownerIds instanceof Problem ? ownerIds : describeTimesAway(ownerIds)
})

const add = serve(planningOperations.addTimeAway, async ({ body }) => answerTimesAway(await saveTimeAway(body)))

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list, POST: add })
