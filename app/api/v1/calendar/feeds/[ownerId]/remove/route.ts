import { calendarOperations } from '#api/calendar'
import { describeFeeds } from '#api/describe-calendar'
import { notFound } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { removeFeedToken } from '#lib/db/planning/days/calendar-feed'

const remove = serve(calendarOperations.removeFeed, async ({ path: { ownerId } }) => {
  await removeFeedToken(ownerId)
  const described = await describeFeeds([ownerId])
  return described.feeds.length === 0 ? notFound('owner', ownerId) : described
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: remove })
