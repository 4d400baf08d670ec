import { calendarOperations } from '#api/calendar'
import { answerParts, refusePartOfOther } from '#api/describe-calendar'
import { endpoint, serve } from '#api/serve'
import { removePart } from '#lib/db/planning/days/remove-part'

const remove = serve(
  calendarOperations.removePart,
  async ({ path: { projectId, partId } }) =>
    (await refusePartOfOther(projectId, partId)) ?? answerParts(projectId, await removePart(partId)),
)

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: remove })
