import { longestFigureText } from './number'

const monthNames = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec']
const fullMonthNames = [
  'january',
  'february',
  'march',
  'april',
  'may',
  'june',
  'july',
  'august',
  'september',
  'october',
  'november',
  'december',
]
const dayNames = ['Sun', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat']

function isoOf(year: number, month: number, day: number): string | null {
  const isLeap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0
  const monthDays = [31, isLeap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month - 1]
  if (year < 1000 || monthDays === undefined || day < 1 || day > monthDays) return null
  return `${year}-${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`
}

/** A year in two figures: 80 to 99 lie in the last century, the rest in this one. */
function yearOf(text: string): number {
  const year = Number(text)
  if (text.length > 2) return year
  return year >= 80 ? 1900 + year : 2000 + year
}

function monthOf(word: string): number {
  const folded = word.toLowerCase()
  const index = fullMonthNames.findIndex(
    (name) => name === folded || name.slice(0, 3) === folded || (name === 'september' && folded === 'sept'),
  )
  return index + 1
}

/**
 * Read a date as people write it: `2026-03-01`, `1.3.2026`, `1/3/2026`, `1 Mar 2026`, `March 1, 2026`; a weekday before it is passed
 * over, and so is a midnight after it. With dots the day comes first; with strokes or dashes `monthFirst` decides, unless only the
 * other order makes a month. A bare number (a spreadsheet's day count) is not a date.
 *
 * @returns the date as `yyyy-mm-dd`, and whether another reading was possible (both orders make a date, or the year has two figures);
 *   null when there is no such day.
 */
export function parseDate(text: string, options: { monthFirst: boolean }): { iso: string; isAmbiguous: boolean } | null {
  if (text.length > longestFigureText) return null
  const tidied = text
    .replace(/\s+/gu, ' ')
    .trim()
    .replace(/^(?:mon|tues?|wed(?:nes)?|thu(?:rs?)?|fri|sat(?:ur)?|sun)(?:day)?[.,]? /iu, '')
    .replace(/[T ]00:00(?::00(?:\.0+)?)?Z?$/u, '')

  const yearFirst = /^(\d{4})([-/.])(\d{1,2})\2(\d{1,2})$/.exec(tidied)
  if (yearFirst) {
    const iso = isoOf(Number(yearFirst[1]), Number(yearFirst[3]), Number(yearFirst[4]))
    return iso === null ? null : { iso, isAmbiguous: false }
  }

  const figures = /^(\d{1,2})([-/.])(\d{1,2})\2(\d{4}|\d{2})$/.exec(tidied)
  if (figures) {
    const [first, second, year] = [Number(figures[1]), Number(figures[3]), yearOf(figures[4] as string)]
    const hasShortYear = (figures[4] as string).length === 2
    const dayFirstIso = isoOf(year, second, first)
    if (figures[2] === '.') return dayFirstIso === null ? null : { iso: dayFirstIso, isAmbiguous: hasShortYear }
    const monthFirstIso = isoOf(year, first, second)
    const iso = options.monthFirst ? (monthFirstIso ?? dayFirstIso) : (dayFirstIso ?? monthFirstIso)
    const hasBothOrders = dayFirstIso !== null && monthFirstIso !== null && dayFirstIso !== monthFirstIso
    return iso === null ? null : { iso, isAmbiguous: hasShortYear || hasBothOrders }
  }

  const dayFirst = /^(\d{1,2})(?:st|nd|rd|th)?[ -]?([a-z]+)\.?,?[ -](\d{4}|\d{2})$/iu.exec(tidied)
  const named = dayFirst ?? /^([a-z]+)\.? (\d{1,2})(?:st|nd|rd|th)?,? (\d{4}|\d{2})$/iu.exec(tidied)
  if (!named) return null
  const [day, month] = dayFirst ? [named[1], named[2]] : [named[2], named[1]]
  const iso = isoOf(yearOf(named[3] as string), monthOf(month as string), Number(day))
  return iso === null ? null : { iso, isAmbiguous: (named[3] as string).length === 2 }
}

/**
 * @returns the date in words, `Tue 8 Sep 2026`. Dates here are plain calendar days, so the weekday is that of the same day in UTC.
 * @throws {RangeError} if it is not a `yyyy-mm-dd` day of the calendar.
 */
export function formatDate(iso: string): string {
  const parts = /^(\d{4})-(\d{2})-(\d{2})$/.exec(iso)
  const [year, month, day] = [Number(parts?.[1]), Number(parts?.[2]), Number(parts?.[3])]
  if (!parts || isoOf(year, month, day) !== iso) throw new RangeError(`formatDate: ${JSON.stringify(iso)}`)
  return `${dayNames[new Date(Date.UTC(year, month - 1, day)).getUTCDay()]} ${day} ${monthNames[month - 1]} ${year}`
}
