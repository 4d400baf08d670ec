import { calendarOperations } from '#api/calendar'
import { readCalendarSpan } from '#api/calendar-span'
import { chosenOwners } from '#api/owners'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { readOccasionWorld } from '#lib/db/planning/days/occasions'
import { readCalendar } from '#lib/db/planning/days/read-calendar'
import { readSchedules } from '#lib/db/planning/pace/read-schedule'
import { addDays, calendarDay } from '#lib/quantity/day'
import { eventWords } from '#words/calendar'

const usualDays = 60

const get = serve(calendarOperations.calendar, async ({ query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const today = calendarDay(new Date())
  const fromOn = query.from ?? today
  const toOn = query.to ?? addDays(fromOn, usualDays)
  const span = readCalendarSpan(fromOn, toOn)
  if (span instanceof Problem) return span
  const [schedules, world] = await Promise.all([readSchedules(ownerIds, { today }), readOccasionWorld(ownerIds)])
  const events = await readCalendar({ ownerIds, schedules, world, fromOn, toOn, today })
  return {
    ...{ ownerIds, fromOn, toOn },
    events: events.map((event) => ({
      ...{ uid: event.uid, on: event.on, toOn: event.toOn, kind: event.kind, summary: eventWords(event, { namesPeople: true }) },
      projectId: 'project' in event ? event.project.id : null,
    })),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
