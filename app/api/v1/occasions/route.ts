import { answerOccasions, describeOccasions } from '#api/describe-calendar'
import { occasionOperations } from '#api/occasions'
import { chosenOwners } from '#api/owners'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { saveOccasion } from '#lib/db/planning/days/save-occasion'
import { calendarDay } from '#lib/quantity/day'

const list = serve(occasionOperations.occasions, async ({ query }) => {
  const ownerIds = await chosenOwners(query.owner)
  return ownerIds instanceof Problem ? ownerIds : describeOccasions(ownerIds)
})

const add = serve(occasionOperations.addOccasion, async ({ body }) =>
  answerOccasions(await saveOccasion({ ...body, today: calendarDay(new Date()) })),
)

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list, POST: add })
