import { say } from '#language/say'
import { readOccasionWorld } from '#lib/db/planning/days/occasions'
import { readCalendar } from '#lib/db/planning/days/read-calendar'
import { readSchedules } from '#lib/db/planning/pace/read-schedule'
import { writeCalendarFile } from '#lib/planning/days/calendar-file'
import { addDays } from '#lib/quantity/day'
import { fileEvents } from '#words/calendar'

/** A calendar file goes from a month back to two years on, and holds no more events than this. */
const [daysBack, daysOn, mostEvents] = [31, 731, 2_000] as const

/** The calendar of some owners as a file, from today on. */
export async function calendarText(ownerIds: readonly string[], ownerName: string, today: string): Promise<string> {
  const [schedules, world] = await Promise.all([readSchedules(ownerIds, { today }), readOccasionWorld(ownerIds)])
  const span = { fromOn: addDays(today, -daysBack), toOn: addDays(today, daysOn) }
  const events = fileEvents(await readCalendar({ ownerIds, schedules, world, ...span, today }))
  return writeCalendarFile(say('By when: {ownerName}', { ownerName }), events.slice(0, mostEvents), today)
}
