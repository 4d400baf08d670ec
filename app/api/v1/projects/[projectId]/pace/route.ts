import { describePace } from '#api/describe-planning'
import { planningOperations } from '#api/planning'
import { notFound } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { readPace } from '#lib/db/planning/pace/read-pace'
import { calendarDay } from '#lib/quantity/day'

const get = serve(planningOperations.pace, async ({ path, query }) => {
  const perWeek = query['per-week'] ?? null
  const pace = await readPace(path.projectId, { today: calendarDay(new Date()), perWeek })
  return pace ? describePace(path.projectId, pace) : notFound('project', path.projectId)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
