import { answerTimesAway } from '#api/describe-planning'
import { planningOperations } from '#api/planning'
import { endpoint, serve } from '#api/serve'
import { removeTimeAway } from '#lib/db/planning/days/remove-time-away'

const remove = serve(planningOperations.removeTimeAway, async ({ path }) =>
  answerTimesAway(await removeTimeAway(path.timeAwayId)),
)

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: remove })
