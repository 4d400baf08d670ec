const dayMs = 86_400_000

/** The moment a day begins, UTC; null where it is no `yyyy-mm-dd` day of the calendar. */
function dayMsOf(iso: string): number | null {
  const ms = /^\d{4}-\d{2}-\d{2}$/.test(iso) ? Date.parse(iso) : Number.NaN
  return Number.isFinite(ms) && new Date(ms).toISOString().slice(0, 10) === iso ? ms : null
}

/** @throws {RangeError} if it is not a `yyyy-mm-dd` day of the calendar. */
function dayNumber(asker: string, iso: string): number {
  const ms = dayMsOf(iso)
  if (ms === null) throw new RangeError(`${asker}: ${JSON.stringify(iso)}`)
  return ms / dayMs
}

/** Whether it is a `yyyy-mm-dd` day that the calendar has. */
export const isDay = (iso: string): boolean => dayMsOf(iso) !== null

/** The first and the last day that `yyyy-mm-dd` can say. */
const [firstMs, lastMs] = [Date.parse('0000-01-01'), Date.parse('9999-12-31')]

/**
 * The day so many days on, or back. Days are plain calendar days, so no clock change ever shifts one. What would be beyond the years 0 to 9999
 * is the first or the last day of them.
 *
 * @param iso  yyyy-mm-dd
 * @throws {RangeError} if it is no such day, or `days` is not a whole number.
 */
export function addDays(iso: string, days: number): string {
  if (!Number.isSafeInteger(days)) throw new RangeError(`addDays: ${days} days`)
  const ms = (dayNumber('addDays', iso) + days) * dayMs
  return new Date(Math.min(lastMs, Math.max(firstMs, ms))).toISOString().slice(0, 10)
}

/** Whole days from one day to another: 1 from a day to the next, negative going back. @throws {RangeError} for no such day. */
export const daysBetween = (fromIso: string, toIso: string): number =>
  dayNumber('daysBetween', toIso) - dayNumber('daysBetween', fromIso)

/** The earlier of two days, yyyy-mm-dd. */
export const earlierOf = (a: string, b: string): string => [a, b].sort()[0] as string

/** The day of the week, Monday 1 to Sunday 7. @throws {RangeError} for no such day. */
export const weekdayOf = (iso: string): number => ((((dayNumber('weekdayOf', iso) + 3) % 7) + 7) % 7) + 1

/** A moment's day on this machine's calendar, as yyyy-mm-dd. */
export const calendarDay = (at: Date): string =>
  `${at.getFullYear()}-${String(at.getMonth() + 1).padStart(2, '0')}-${String(at.getDate()).padStart(2, '0')}`
