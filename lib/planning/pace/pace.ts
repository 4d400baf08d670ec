import { addDays, daysBetween, earlierOf, weekdayOf } from '#lib/quantity/day'

/** A span of whole days, yyyy-mm-dd, the first and the last of them. */
export type DaySpan = { fromOn: string; toOn: string }

/** What was done on a day; `amount` is in stitches, or in thousandths of the whole. */
export type DayWork = { day: string; amount: number; minutes: number }

export type PaceWeek = {
  /** Its first day. */
  startsOn: string
  amount: number
  minutes: number
  /** She was away on every day of it. */
  isAway: boolean
}

/** The day a day's week begins. @param firstWeekday  1 Monday to 7 Sunday */
export const weekStart = (day: string, firstWeekday: number): string => addDays(day, -((weekdayOf(day) - firstWeekday + 7) % 7))

const isWithin = (day: string, { fromOn, toOn }: DaySpan): boolean => fromOn <= day && day <= toOn

/** Longer ago says little of today's pace. */
export const mostPaceWeeks = 12

/**
 * The weeks a pace is reckoned from, the earliest first: whole ones, from that of the first work on, at most the last 12. The week under
 * way is left out, for nobody knows yet what it will come to; only when there is no other is it taken, and `isPartial` says so.
 *
 * @param most  another number of weeks than 12, at most
 */
export function paceWeeks(input: {
  work: readonly DayWork[]
  away: readonly DaySpan[]
  today: string
  firstWeekday: number
  most?: number
}): {
  weeks: PaceWeek[]
  isPartial: boolean
} {
  const { work, away, today, firstWeekday, most = mostPaceWeeks } = input
  const past = work.filter(({ day }) => day <= today)
  if (past.length === 0) return { weeks: [], isPartial: false }
  const thisWeek = weekStart(today, firstWeekday)
  const first = weekStart(
    past.reduce((first, { day }) => earlierOf(first, day), today),
    firstWeekday,
  )
  const isPartial = first === thisWeek
  const count = isPartial ? 1 : Math.min(most, daysBetween(first, thisWeek) / 7)
  const start = isPartial ? thisWeek : addDays(thisWeek, -7 * count)
  const weeks = Array.from({ length: count }, (_, at): PaceWeek => {
    const startsOn = addDays(start, 7 * at)
    const days = Array.from({ length: 7 }, (_day, turn) => addDays(startsOn, turn))
    return { startsOn, amount: 0, minutes: 0, isAway: days.every((day) => away.some((span) => isWithin(day, span))) }
  })
  for (const { day, amount, minutes } of past) {
    const week = day < start ? undefined : weeks[Math.floor(daysBetween(start, day) / 7)]
    if (!week) continue
    week.amount += amount
    week.minutes += minutes
  }
  return { weeks, isPartial }
}

/** So much in so many weeks: kept apart, so that nothing is rounded before it is divided. */
export type Pace = { amount: number; weeks: number }

/**
 * The two means of a log, shown apart since neither is the truth: of the weeks in which she stitched, which leaves out those away or
 * idle, and of all weeks.
 *
 * @returns null each where nothing was stitched
 */
export function meansOf(weeks: readonly PaceWeek[]): { stitchedWeeks: Pace | null; allWeeks: Pace | null } {
  const stitched = weeks.filter(({ amount }) => amount > 0)
  const sum = (of: readonly PaceWeek[]) => of.reduce((total, { amount }) => total + amount, 0)
  const [ofStitched, ofAll] = [sum(stitched), sum(weeks)]
  return {
    stitchedWeeks: ofStitched > 0 ? { amount: ofStitched, weeks: stitched.length } : null,
    allWeeks: ofAll > 0 ? { amount: ofAll, weeks: weeks.length } : null,
  }
}

/** Stitches an hour, by what was logged with both; null where nothing was. */
export function perHour(work: readonly DayWork[]): number | null {
  let [amount, minutes] = [0, 0]
  for (const one of work) {
    if (one.amount <= 0 || one.minutes <= 0) continue
    amount += one.amount
    minutes += one.minutes
  }
  return minutes > 0 ? (amount * 60) / minutes : null
}
