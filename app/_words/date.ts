import { formatDate } from '#lib/quantity/date'
import { calendarDay } from '#lib/quantity/day'

export { calendarDay }

/** A moment's day on this machine's calendar, in words. */
export const dayOf = (at: Date): string => formatDate(calendarDay(at))

/** A moment by the clock of the machine: the day in words, and the time. */
export const momentWords = (at: Date): string =>
  `${dayOf(at)}, ${at.toLocaleTimeString('en-GB', { hour: '2-digit', minute: '2-digit' })}`
