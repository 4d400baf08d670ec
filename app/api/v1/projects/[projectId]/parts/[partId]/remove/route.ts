import { answerParts, refusePartOfOther } from '#api/describe-calendar'
import { endpoint, serve } from '#api/serve'
import { partOperations } from '#api/stitch-along-parts'
import { removePart } from '#lib/db/planning/days/remove-part'

const remove = serve(
  partOperations.removePart,
  async ({ path: { projectId, partId } }) =>
    (await refusePartOfOther(projectId, partId)) ?? answerParts(projectId, await removePart(partId)),
)

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: remove })
