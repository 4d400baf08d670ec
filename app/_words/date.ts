import { formatDate } from '#lib/quantity/date'

/** A moment's day on this machine's calendar, as yyyy-mm-dd. */
export const calendarDay = (at: Date): string =>
  `${at.getFullYear()}-${String(at.getMonth() + 1).padStart(2, '0')}-${String(at.getDate()).padStart(2, '0')}`

/** The same in words. */
export const dayOf = (at: Date): string => formatDate(calendarDay(at))
