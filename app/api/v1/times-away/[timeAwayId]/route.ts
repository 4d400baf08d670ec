import { answerTimesAway } from '#api/describe-planning'
import { planningOperations } from '#api/planning'
import { endpoint, serve } from '#api/serve'
import { saveTimeAway } from '#lib/db/planning/days/save-time-away'

const change = serve(planningOperations.changeTimeAway, async ({ path, body: { version, ...said } }) =>
  answerTimesAway(await saveTimeAway({ id: path.timeAwayId, ...said, ...(version !== undefined && { version }) })),
)

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: change })
