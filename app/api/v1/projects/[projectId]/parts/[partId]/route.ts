import { calendarOperations } from '#api/calendar'
import { answerParts, refusePartOfOther } from '#api/describe-calendar'
import { endpoint, serve } from '#api/serve'
import { savePart } from '#lib/db/planning/days/save-part'

const change = serve(
  calendarOperations.changePart,
  async ({ path: { projectId, partId }, body }) =>
    (await refusePartOfOther(projectId, partId)) ?? answerParts(projectId, await savePart({ ...body, id: partId })),
)

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: change })
