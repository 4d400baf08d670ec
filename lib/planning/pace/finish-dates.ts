import { addDays, daysBetween, earlierOf } from '#lib/quantity/day'
import type { DaySpan, Pace } from './pace'

/** Whole weeks that so much takes at a pace: ⌈left ÷ pace⌉. @throws {RangeError} for a pace of nothing. */
export function weeksFor(left: number, { amount, weeks }: Pace): number {
  if (!(amount > 0) || !(weeks > 0)) throw new RangeError(`weeksFor: ${amount} in ${weeks} weeks`)
  return Math.max(0, Math.ceil((left * weeks) / amount))
}

/** Days of `from` to the day before `to` on which she is away; a day in two spans counts once. */
function daysAway(away: readonly DaySpan[], from: string, to: string): number {
  const last = addDays(to, -1)
  let count = 0
  let counted = addDays(from, -1)
  for (const span of away.toSorted((a, b) => (a.fromOn < b.fromOn ? -1 : a.fromOn > b.fromOn ? 1 : 0))) {
    const begins = span.fromOn > counted ? span.fromOn : addDays(counted, 1)
    const ends = earlierOf(span.toOn, last)
    if (begins > ends) continue
    count += daysBetween(begins, ends) + 1
    counted = ends
  }
  return count
}

/** The day so many weeks of stitching from a day end, later by every day away in between. */
export function dayAfterStitching(from: string, weeks: number, away: readonly DaySpan[]): { day: string; daysAway: number } {
  let days = 0
  for (;;) {
    const day = addDays(from, weeks * 7 + days)
    const found = daysAway(away, from, day)
    // More days away only ever push the end further, into more of them at most.
    if (found === days) return { day, daysAway: days }
    days = found
  }
}

/** The day so many weeks of stitching must begin to end on a day, earlier by every day away in between. */
export function dayBeforeStitching(until: string, weeks: number, away: readonly DaySpan[]): { day: string; daysAway: number } {
  let days = 0
  for (;;) {
    const day = addDays(until, -(weeks * 7 + days))
    const found = daysAway(away, day, until)
    if (found === days) return { day, daysAway: days }
    days = found
  }
}

export type Deadline = { dueOn: string; finishingWeeks: number; bufferWeeks: number }

/**
 * The last day to start, or to go on from, for it to be finished when it is due: due day − finishing − buffer − whole weeks of stitching
 * − days away. Trade practice; no published source.
 */
export function startBy(deadline: Deadline, weeks: number, away: readonly DaySpan[]): { day: string; daysAway: number } {
  return dayBeforeStitching(stitchedBy(deadline), weeks, away)
}

/** The day the last stitch has to be made by. */
export const stitchedBy = ({ dueOn, finishingWeeks, bufferWeeks }: Deadline): string =>
  addDays(dueOn, -7 * (finishingWeeks + bufferWeeks))
