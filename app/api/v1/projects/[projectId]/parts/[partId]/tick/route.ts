import { calendarOperations } from '#api/calendar'
import { answerParts, refusePartOfOther } from '#api/describe-calendar'
import { endpoint, serve } from '#api/serve'
import { tickPart } from '#lib/db/planning/days/tick-part'
import { calendarDay } from '#lib/quantity/day'

const tick = serve(
  calendarOperations.tickPart,
  async ({ path: { projectId, partId }, body }) =>
    (await refusePartOfOther(projectId, partId)) ??
    answerParts(projectId, await tickPart({ ...body, id: partId, today: calendarDay(new Date()) })),
)

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: tick })
