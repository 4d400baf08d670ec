import { answerRotation } from '#api/describe-planning'
import { planningOperations } from '#api/planning'
import { endpoint, serve } from '#api/serve'
import { moveInRotation } from '#lib/db/planning/pace/move-in-rotation'

const move = serve(planningOperations.move, async ({ body }) => answerRotation(body.projectId, await moveInRotation(body)))

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: move })
