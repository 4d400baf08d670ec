import { formatDate } from '#lib/quantity/date'
import { calendarDay } from '#lib/quantity/day'

export { calendarDay }

/** A moment's day on this machine's calendar, in words. */
export const dayOf = (at: Date): string => formatDate(calendarDay(at))
