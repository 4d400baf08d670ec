import { calendarOperations } from '#api/calendar'
import { describeFeeds } from '#api/describe-calendar'
import { chosenOwners } from '#api/owners'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'

const list = serve(calendarOperations.feeds, async ({ query }) => {
  const ownerIds = await chosenOwners(query.owner)
  return ownerIds instanceof Problem ? ownerIds : describeFeeds(ownerIds)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list })
