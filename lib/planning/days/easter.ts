import { addDays } from '#lib/quantity/day'

/**
 * Western Easter Sunday of a year, yyyy-mm-dd: the first Sunday after the first full moon of the church's tables on or after 21 March.
 *
 * By the Gregorian reckoning without exceptions ("To find Easter", Nature 13, 20 April 1876, p. 487; J. Meeus, Astronomical Algorithms,
 * ch. 8). The letters are the source's: `a` the year in the 19-year cycle of the moon, `h` the days from 21 March to that full moon,
 * `l` the days from it to the Sunday.
 *
 * @throws {RangeError} for a year before 1583, when there was no Gregorian calendar yet, or after 9999
 */
export function easterSunday(year: number): string {
  if (!Number.isInteger(year) || year < 1583 || year > 9999) throw new RangeError(`easterSunday: ${year}`)
  const a = year % 19
  const b = Math.floor(year / 100)
  const c = year % 100
  const d = Math.floor(b / 4)
  const e = b % 4
  const f = Math.floor((b + 8) / 25)
  const g = Math.floor((b - f + 1) / 3)
  const h = (19 * a + b - d - g + 15) % 30
  const i = Math.floor(c / 4)
  const k = c % 4
  const l = (32 + 2 * e + 2 * i - h - k) % 7
  const m = Math.floor((a + 11 * h + 22 * l) / 451)
  // Days from 22 March, the earliest it can be.
  return addDays(`${year}-03-22`, h + l - 7 * m)
}
