import { byText } from '#lib/quantity/text-order'
import { dayBeforeStitching } from './finish-dates'
import type { DaySpan, Pace } from './pace'

/** Whole weeks of stitching from a day until another, days away left out, and what they come to at a pace, rounded down. */
export function stitchesUntil(input: { pace: Pace; today: string; until: string; away: readonly DaySpan[] }): {
  weeks: number
  stitches: number
} {
  const { pace, today, until, away } = input
  let weeks = 0
  while (weeks < mostWeeks && dayBeforeStitching(until, weeks + 1, away).day >= today) weeks++
  return { weeks, stitches: Math.floor((weeks * pace.amount) / pace.weeks) }
}

const mostWeeks = 5_200

/** What a list of works to begin is parted by. `on` is yyyy-mm-dd. */
export type StartGroup =
  /** The last day to begin at the slower pace has gone by, and it is not begun. */
  | { kind: 'overdue' }
  /** yyyy-mm */
  | { kind: 'month'; month: string }
  /** Nobody knows how many stitches it has, or nothing is logged that a pace could be reckoned from. */
  | { kind: 'no-day' }

/** A work in the list, by its last days to begin, the days at each pace. */
type StartWork = { startBy: readonly string[]; isBegun: boolean }

/** The earliest of the days to begin, which is the one to go by. */
const earliestStart = ({ startBy }: StartWork): string | null => [...startBy].sort()[0] ?? null

/**
 * Works by when they must be begun: those that should have been first, then by month, each by its earliest day; then those without one.
 * What is begun goes on from its day at the latest, so one gone by is overdue too.
 */
export function groupByStart<Work extends StartWork>(
  works: readonly Work[],
  today: string,
): { group: StartGroup; works: Work[] }[] {
  const sorted = works.toSorted((a, b) => byText(earliestStart(a) ?? '9', earliestStart(b) ?? '9'))
  const groups = new Map<string, { group: StartGroup; works: Work[] }>()
  for (const work of sorted) {
    const day = earliestStart(work)
    const group: StartGroup =
      day === null ? { kind: 'no-day' } : day < today ? { kind: 'overdue' } : { kind: 'month', month: day.slice(0, 7) }
    const key = group.kind === 'month' ? group.month : group.kind
    const there = groups.get(key)
    if (there) there.works.push(work)
    else groups.set(key, { group, works: [work] })
  }
  return [...groups.values()]
}
