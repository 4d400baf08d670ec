import { answerOccasions } from '#api/describe-calendar'
import { occasionOperations } from '#api/occasions'
import { endpoint, serve } from '#api/serve'
import { saveOccasion } from '#lib/db/planning/days/save-occasion'
import { calendarDay } from '#lib/quantity/day'

const change = serve(occasionOperations.changeOccasion, async ({ path, body: { version, ...said } }) => {
  const what = { ...said, id: path.occasionId, today: calendarDay(new Date()) }
  return answerOccasions(await saveOccasion({ ...what, ...(version !== undefined && { version }) }))
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: change })
