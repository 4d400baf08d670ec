import { answerParts, refusePartOfOther } from '#api/describe-calendar'
import { endpoint, serve } from '#api/serve'
import { partOperations } from '#api/stitch-along-parts'
import { tickPart } from '#lib/db/planning/days/tick-part'
import { calendarDay } from '#lib/quantity/day'

const tick = serve(
  partOperations.tickPart,
  async ({ path: { projectId, partId }, body }) =>
    (await refusePartOfOther(projectId, partId)) ??
    answerParts(projectId, await tickPart({ ...body, id: partId, today: calendarDay(new Date()) })),
)

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: tick })
