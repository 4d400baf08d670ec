import { daysBetween } from '#lib/quantity/day'

/** While a chart is away: from a day until a day, or (null) until nobody knows when. */
export type Away = { fromOn: string; untilOn: string | null }

/** Days on which a chart is both wanted and away, first and last counted; `days` is null when nobody knows the last. */
export type Clash = { fromOn: string; untilOn: string | null; days: number | null }

/**
 * Where a loan and a plan to begin want the same chart: from the day the plan begins, or the loan if that is later, to the day it is
 * due, both counted. A plan is wanted from its day on, so one that begins after the chart is due back is no clash.
 *
 * What is overdue has no day any more: hand it in as until null.
 *
 * @param plannedOn  yyyy-mm-dd
 */
export function clashOf({ fromOn, untilOn }: Away, plannedOn: string): Clash | null {
  const first = plannedOn > fromOn ? plannedOn : fromOn
  if (untilOn === null) return { fromOn: first, untilOn, days: null }
  return first > untilOn ? null : { fromOn: first, untilOn, days: daysBetween(first, untilOn) + 1 }
}

/** How long a loan keeps a chart away, asked today: once overdue, nobody knows until when. */
export const awayOf = ({ fromOn, dueOn }: { fromOn: string; dueOn: string | null }, today: string): Away => ({
  fromOn,
  untilOn: dueOn !== null && dueOn >= today ? dueOn : null,
})
