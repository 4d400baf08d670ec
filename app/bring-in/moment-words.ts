import { formatDate } from '#lib/quantity/date'

/** A moment by the clock of the machine: the day in words, and the time. */
export const momentWords = (at: Date): string =>
  `${formatDate(at.toLocaleDateString('sv-SE'))}, ${at.toLocaleTimeString('en-GB', { hour: '2-digit', minute: '2-digit' })}`
