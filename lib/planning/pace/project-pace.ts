import { addDays, daysBetween } from '#lib/quantity/day'
import { type Deadline, dayAfterStitching, startBy, weeksFor } from './finish-dates'
import { type DaySpan, type DayWork, meansOf, type Pace, type PaceWeek, paceWeeks, perHour } from './pace'

/** Where a pace comes from: the mean of the weeks stitched, of all weeks, or what she says she will do. */
export type PaceKind = 'stitched-weeks' | 'all-weeks' | 'said'

export type Outlook = {
  kind: PaceKind
  pace: Pace
  weeks: number
  /** Days away between today and the last stitch. */
  daysAway: number
  stitchedOn: string
  due: {
    startBy: string
    /** Days away between that day and the last stitch. */
    daysAway: number
    /** Started today, with finishing and buffer. */
    readyOn: string
    /** Days that is after it is due; nought or less in time. */
    daysLate: number
  } | null
}

export type ProjectPace = {
  weeks: PaceWeek[]
  /** Only the week under way is logged. */
  isPartial: boolean
  left: number | null
  perHour: number | null
  outlooks: Outlook[]
}

/**
 * When a work will be done at each pace from today, and by when it must be begun.
 *
 * @param work        what the pace is reckoned from, in the unit of `left`
 * @param left        what is still to be stitched; null where nobody knows: then there are no dates
 * @param saidPerWeek so much a week, if she says so
 */
export function planPace(input: {
  work: readonly DayWork[]
  left: number | null
  away: readonly DaySpan[]
  today: string
  firstWeekday: number
  deadline: Deadline | null
  saidPerWeek: number | null
}): ProjectPace {
  const { work, left, away, today, deadline, saidPerWeek } = input
  const { weeks, isPartial } = paceWeeks(input)
  const { stitchedWeeks, allWeeks } = meansOf(weeks)
  const known: [PaceKind, Pace | null][] = [
    ['stitched-weeks', stitchedWeeks],
    ['all-weeks', allWeeks],
    ['said', saidPerWeek === null ? null : { amount: saidPerWeek, weeks: 1 }],
  ]
  const outlooks = known.flatMap(([kind, pace]): Outlook[] =>
    pace === null || left === null ? [] : [outlookAt({ kind, pace, left, deadline, away, today })],
  )
  return { weeks, isPartial, left, perHour: perHour(work), outlooks }
}

/** When what is left will be done at one pace from today, and by when it must be begun. */
export function outlookAt(input: {
  kind: PaceKind
  pace: Pace
  left: number
  deadline: Deadline | null
  away: readonly DaySpan[]
  today: string
}): Outlook {
  const { kind, pace, left, deadline, away, today } = input
  const weeks = weeksFor(left, pace)
  const done = dayAfterStitching(today, weeks, away)
  return {
    ...{ kind, pace, weeks, daysAway: done.daysAway, stitchedOn: done.day },
    due: deadline && dueAt(deadline, weeks, done.day, away),
  }
}

function dueAt(deadline: Deadline, weeks: number, stitchedOn: string, away: readonly DaySpan[]): NonNullable<Outlook['due']> {
  const start = startBy(deadline, weeks, away)
  const readyOn = addDays(stitchedOn, 7 * (deadline.finishingWeeks + deadline.bufferWeeks))
  return { startBy: start.day, daysAway: start.daysAway, readyOn, daysLate: daysBetween(deadline.dueOn, readyOn) }
}
