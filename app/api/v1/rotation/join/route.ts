import { answerRotation } from '#api/describe-planning'
import { planningOperations } from '#api/planning'
import { endpoint, serve } from '#api/serve'
import { joinRotation } from '#lib/db/planning/pace/join-rotation'
import { weekdaysOf } from '#lib/planning/pace/rotation'

const join = serve(planningOperations.join, async ({ body: { projectId, weekdays } }) =>
  answerRotation(projectId, await joinRotation({ projectId, ...(weekdays && { weekdays: weekdaysOf(weekdays) }) })),
)

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: join })
