import { addDays, weekdayOf } from '#lib/quantity/day'
import { easterSunday } from './easter'

/** When a day falls, year by year. Weekdays are 1 Monday to 7 Sunday, months 1 to 12. */
export type OccasionRule =
  /** The same day every year. One that a year does not have (29 February) is left out in it. */
  | { kind: 'fixed'; month: number; day: number }
  /** So many days after Easter Sunday, or before it. */
  | { kind: 'easter'; days: number }
  /** The first to fifth, or the last, of its weekday in a month. A fifth that a year does not have is left out in it. */
  | { kind: 'weekday'; nth: 1 | 2 | 3 | 4 | 5 | 'last'; weekday: number; month: number }
  /** The weekday nearest to a day, and so many days from that. */
  | { kind: 'nearest'; weekday: number; month: number; day: number; days: number }
  /** Once, yyyy-mm-dd. */
  | { kind: 'once'; on: string }

const weekdayNames = ['monday', 'tuesday', 'wednesday', 'thursday', 'friday', 'saturday', 'sunday'] as const
const nthNames = ['first', 'second', 'third', 'fourth', 'fifth'] as const

/** Further from Easter than this no day of a year is reckoned. */
const mostDaysFromEaster = 300
/** A day may be so many days from the weekday nearest another. */
const mostDaysFromNearest = 60

const two = (value: number): string => String(value).padStart(2, '0')
const dayIn = (year: number, month: number, day: number): string => `${year}-${two(month)}-${two(day)}`
const daysInMonth = (year: number, month: number): number => new Date(Date.UTC(year, month, 0)).getUTCDate()
const isMonthDay = (month: number, day: number): boolean =>
  month >= 1 && month <= 12 && day >= 1 && day <= daysInMonth(2000, month)

/** The day of a year on which it falls, yyyy-mm-dd; null where that year has none. Years are 1583 to 9999. */
export function dayOfRule(rule: OccasionRule, year: number): string | null {
  switch (rule.kind) {
    case 'fixed':
      return rule.day <= daysInMonth(year, rule.month) ? dayIn(year, rule.month, rule.day) : null
    case 'easter':
      return addDays(easterSunday(year), rule.days)
    case 'weekday': {
      const { nth, weekday, month } = rule
      if (nth === 'last') {
        const end = dayIn(year, month, daysInMonth(year, month))
        return addDays(end, -((weekdayOf(end) - weekday + 7) % 7))
      }
      const start = dayIn(year, month, 1)
      const day = addDays(start, ((weekday - weekdayOf(start) + 7) % 7) + 7 * (nth - 1))
      return day.slice(0, 7) === start.slice(0, 7) ? day : null
    }
    case 'nearest': {
      const { weekday, month, day, days } = rule
      if (day > daysInMonth(year, month)) return null
      // Three days back, then on to the weekday: never more than three away from the day itself.
      const from = addDays(dayIn(year, month, day), -3)
      return addDays(from, ((weekday - weekdayOf(from) + 7) % 7) + days)
    }
    case 'once':
      return rule.on.startsWith(`${year}-`) ? rule.on : null
  }
}

const shift = (days: number): string => (days === 0 ? '' : `${days < 0 ? '-' : '+'}${Math.abs(days)}`)

/** How a rule is kept: `12-24`; `easter+39`; `last monday of 5`; `sunday nearest 11-30-7`; `2027-05-14`. */
export function printRule(rule: OccasionRule): string {
  switch (rule.kind) {
    case 'fixed':
      return `${two(rule.month)}-${two(rule.day)}`
    case 'easter':
      return `easter${shift(rule.days)}`
    case 'weekday':
      return `${rule.nth === 'last' ? 'last' : nthNames[rule.nth - 1]} ${weekdayNames[rule.weekday - 1]} of ${rule.month}`
    case 'nearest':
      return `${weekdayNames[rule.weekday - 1]} nearest ${two(rule.month)}-${two(rule.day)}${shift(rule.days)}`
    case 'once':
      return rule.on
  }
}

const isDay = (iso: string): boolean => {
  const ms = Date.parse(iso)
  return Number.isFinite(ms) && new Date(ms).toISOString().slice(0, 10) === iso && iso >= '1583'
}
const weekdayCalled = (name = ''): number => (weekdayNames as readonly string[]).indexOf(name) + 1

/** Read a rule as `printRule` writes it; null for what is none. */
export function parseRule(text: string): OccasionRule | null {
  if (text.length > 60) return null
  const tidied = text.trim().toLowerCase().replace(/\s+/g, ' ')
  if (/^\d{4}-\d{2}-\d{2}$/.test(tidied)) return isDay(tidied) ? { kind: 'once', on: tidied } : null
  const fixed = /^(\d{1,2})-(\d{1,2})$/.exec(tidied)
  if (fixed) {
    const [month, day] = [Number(fixed[1]), Number(fixed[2])]
    return isMonthDay(month, day) ? { kind: 'fixed', month, day } : null
  }
  const easter = /^easter(?: ?([+-]) ?(\d{1,3}))?$/.exec(tidied)
  if (easter) {
    const days = Number(easter[2] ?? 0) * (easter[1] === '-' ? -1 : 1)
    return Math.abs(days) <= mostDaysFromEaster ? { kind: 'easter', days: days || 0 } : null
  }
  const nearest = /^([a-z]+) nearest (\d{1,2})-(\d{1,2})(?: ?([+-]) ?(\d{1,2}))?$/.exec(tidied)
  if (nearest) {
    const [weekday, month, day] = [weekdayCalled(nearest[1]), Number(nearest[2]), Number(nearest[3])]
    const days = Number(nearest[5] ?? 0) * (nearest[4] === '-' ? -1 : 1)
    const reads = weekday > 0 && isMonthDay(month, day) && Math.abs(days) <= mostDaysFromNearest
    return reads ? { kind: 'nearest', weekday, month, day, days: days || 0 } : null
  }
  const nth = /^([a-z]+) ([a-z]+) of (\d{1,2})$/.exec(tidied)
  if (nth) {
    const [weekday, month] = [weekdayCalled(nth[2]), Number(nth[3])]
    const place = nth[1] === 'last' ? 'last' : (nthNames as readonly string[]).indexOf(nth[1] ?? '') + 1
    const reads = weekday > 0 && place !== 0 && month >= 1 && month <= 12
    return reads ? { kind: 'weekday', nth: place as 1 | 'last', weekday, month } : null
  }
  return null
}

/** The calendar has all its days and weekdays again after 400 years: what does not come in them comes no more. */
const mostYearsApart = 400

/**
 * The next day from a day on, that day counted, yyyy-mm-dd.
 *
 * @param dayInYear  the day of a year, null where it has none
 * @returns null when none comes any more
 */
export function nextDay(dayInYear: (year: number) => string | null, from: string): string | null {
  const first = Number(from.slice(0, 4))
  // A rule that counts days from another may leave its own year.
  for (let year = Math.max(1583, first - 1); year <= Math.min(9998, first + mostYearsApart); year++) {
    const day = dayInYear(year)
    if (day !== null && day >= from) return day
  }
  return null
}

/** Every day it falls on between two days, both counted, the earliest first. */
export function daysBetweenOf(dayInYear: (year: number) => string | null, fromOn: string, toOn: string): string[] {
  const [first, last] = [Number(fromOn.slice(0, 4)), Number(toOn.slice(0, 4))]
  const days: string[] = []
  for (let year = Math.max(1583, first - 1); year <= Math.min(9998, last + 1); year++) {
    const day = dayInYear(year)
    if (day !== null && day >= fromOn && day <= toOn) days.push(day)
  }
  return days
}
