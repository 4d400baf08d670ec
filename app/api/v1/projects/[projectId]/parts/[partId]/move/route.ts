import { answerParts, refusePartOfOther } from '#api/describe-calendar'
import { endpoint, serve } from '#api/serve'
import { partOperations } from '#api/stitch-along-parts'
import { movePart } from '#lib/db/planning/days/move-part'

const move = serve(
  partOperations.movePart,
  async ({ path: { projectId, partId }, body }) =>
    (await refusePartOfOther(projectId, partId)) ?? answerParts(projectId, await movePart({ ...body, id: partId })),
)

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: move })
