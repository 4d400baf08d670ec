import { answerParts, refusePartOfOther } from '#api/describe-calendar'
import { endpoint, serve } from '#api/serve'
import { partOperations } from '#api/stitch-along-parts'
import { savePart } from '#lib/db/planning/days/save-part'

const change = serve(
  partOperations.changePart,
  async ({ path: { projectId, partId }, body }) =>
    (await refusePartOfOther(projectId, partId)) ?? answerParts(projectId, await savePart({ ...body, id: partId })),
)

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: change })
