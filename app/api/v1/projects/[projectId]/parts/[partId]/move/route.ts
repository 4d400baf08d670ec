import { calendarOperations } from '#api/calendar'
import { answerParts, refusePartOfOther } from '#api/describe-calendar'
import { endpoint, serve } from '#api/serve'
import { movePart } from '#lib/db/planning/days/move-part'

const move = serve(
  calendarOperations.movePart,
  async ({ path: { projectId, partId }, body }) =>
    (await refusePartOfOther(projectId, partId)) ?? answerParts(projectId, await movePart({ ...body, id: partId })),
)

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: move })
