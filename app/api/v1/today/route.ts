import { chosenOwners } from '#api/owners'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { todayOperations } from '#api/today'
import { readToday } from '#lib/db/planning/days/read-today'
import { calendarDay } from '#lib/quantity/day'

const get = serve(todayOperations.today, async ({ query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  return { ownerIds, lines: await readToday({ ownerIds, today: calendarDay(new Date()) }) }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
