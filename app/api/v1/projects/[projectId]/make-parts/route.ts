import { answerParts } from '#api/describe-calendar'
import { endpoint, serve } from '#api/serve'
import { partOperations } from '#api/stitch-along-parts'
import { makeParts } from '#lib/db/planning/days/save-part'

const make = serve(partOperations.makeParts, async ({ path: { projectId }, body }) => {
  const { from, count, everyDays, ...said } = body
  const rule =
    everyDays === null
      ? ({ kind: 'monthly', day: Number(from.slice(8)), from, count } as const)
      : ({ kind: 'days', days: everyDays, from, count } as const)
  return answerParts(projectId, await makeParts({ ...said, projectId, rule }))
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: make })
