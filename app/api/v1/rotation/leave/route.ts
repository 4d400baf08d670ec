import { answerRotation } from '#api/describe-planning'
import { planningOperations } from '#api/planning'
import { endpoint, serve } from '#api/serve'
import { leaveRotation } from '#lib/db/planning/pace/leave-rotation'

const leave = serve(planningOperations.leave, async ({ body }) => answerRotation(body.projectId, await leaveRotation(body)))

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: leave })
