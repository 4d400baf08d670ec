import { answerOccasions } from '#api/describe-calendar'
import { occasionOperations } from '#api/occasions'
import { endpoint, serve } from '#api/serve'
import { removeOccasion } from '#lib/db/planning/days/remove-occasion'

const remove = serve(occasionOperations.removeOccasion, async ({ path }) =>
  answerOccasions(await removeOccasion(path.occasionId)),
)

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: remove })
