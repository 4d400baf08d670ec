import { calendarOperations } from '#api/calendar'
import { describeFeeds } from '#api/describe-calendar'
import { notFound } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { renewFeedToken } from '#lib/db/planning/days/calendar-feed'

const renew = serve(calendarOperations.renewFeed, async ({ path: { ownerId } }) => {
  const done = await renewFeedToken(ownerId)
  return done.ok ? describeFeeds([ownerId]) : notFound('owner', ownerId)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: renew })
