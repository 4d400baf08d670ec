import { formatDate } from '#language/day'
import { dayText } from '#language/figures'
import { calendarDay } from '#lib/quantity/day'

export { calendarDay }

/** A moment's day on this machine's calendar, in words. */
export const dayOf = (at: Date): string => formatDate(calendarDay(at))

/** A moment by the clock of the machine: the day in words, and the time. */
export const momentWords = (at: Date): string => `${dayOf(at)}, ${dayText(at, { hour: '2-digit', minute: '2-digit' })}`
