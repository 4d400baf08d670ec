import { calendarOperations } from '#api/calendar'
import { answerOccasions } from '#api/describe-calendar'
import { endpoint, serve } from '#api/serve'
import { removeOccasion } from '#lib/db/planning/days/remove-occasion'

const remove = serve(calendarOperations.removeOccasion, async ({ path }) =>
  answerOccasions(await removeOccasion(path.occasionId)),
)

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: remove })
