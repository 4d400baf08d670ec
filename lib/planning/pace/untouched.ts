import { daysBetween } from '#lib/quantity/day'

/** A work that was begun. */
export type BegunWork = { id: string; startedOn: string | null; lastWorkedOn: string | null }

export type Untouched<Work> = { work: Work; since: string; days: number }

/**
 * Those begun and not worked on for longer than so many days, the longest first. What is not logged counts from the day it was begun;
 * where nobody knows that either, nothing can be said.
 */
export function findUntouched<Work extends BegunWork>(
  works: readonly Work[],
  { today, limitDays }: { today: string; limitDays: number },
): Untouched<Work>[] {
  return works
    .flatMap((work): Untouched<Work>[] => {
      const { startedOn, lastWorkedOn } = work
      const since = startedOn !== null && (lastWorkedOn === null || lastWorkedOn < startedOn) ? startedOn : lastWorkedOn
      const days = since === null ? 0 : daysBetween(since, today)
      return since !== null && days > limitDays ? [{ work, since, days }] : []
    })
    .sort((a, b) => b.days - a.days || (a.work.id < b.work.id ? -1 : 1))
}
