import * as english from '#lib/quantity/date'
import { dayText } from './figures'
import { language } from './language'

/** A day in words: "Tue 8 Sep 2026", "Di., 8. Sept. 2026". @throws {RangeError} if it is no `yyyy-mm-dd` day of the calendar. */
export function formatDate(iso: string): string {
  const said = english.formatDate(iso)
  if (language().key !== 'de') return said
  const options = { weekday: 'short', day: 'numeric', month: 'short', year: 'numeric', timeZone: 'UTC' } as const
  return dayText(new Date(`${iso}T00:00Z`), options)
}
