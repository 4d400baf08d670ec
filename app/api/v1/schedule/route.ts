import { calendarOperations } from '#api/calendar'
import { describeSchedule } from '#api/describe-calendar'
import { chosenOwners } from '#api/owners'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { readSchedules } from '#lib/db/planning/pace/read-schedule'
import { calendarDay } from '#lib/quantity/day'

const get = serve(calendarOperations.schedule, async ({ query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const schedules = await readSchedules(ownerIds, { today: calendarDay(new Date()), perWeek: query['per-week'] ?? null })
  return { ownerIds, schedules: schedules.map(describeSchedule) }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
