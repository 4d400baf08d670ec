/** One line of a project's log. With neither stitches nor minutes nor a percentage it says that it was worked on. */
export type LoggedWork = {
  id: string
  /** yyyy-mm-dd */
  day: string
  /** Less than nothing where some were unpicked. Of an entry with `donePerMille`: what that adds to those before it. */
  stitches: number
  minutes: number
  /** How far it had come after this, in thousandths of the whole, where that was said instead of stitches. */
  donePerMille: number | null
}

/** In the order the work was done: by day, and within one as it was set down (ids sort by age). */
export const inOrderDone = <Entry extends Pick<LoggedWork, 'id' | 'day'>>(entries: readonly Entry[]): Entry[] =>
  entries.toSorted((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : a.id < b.id ? -1 : a.id > b.id ? 1 : 0))

/** A project's totals as they stand on record. */
export type WorkTotals = { stitchesDone: number; hoursTenths: number }

const minutesPerTenth = 6

/** What a log adds up to. Hours are rounded once, over all of it, so that many short sittings lose nothing. */
export function sumOfLog(entries: readonly Pick<LoggedWork, 'stitches' | 'minutes'>[]): WorkTotals {
  const sum = { stitches: 0, minutes: 0 }
  for (const { stitches, minutes } of entries) {
    sum.stitches += stitches
    sum.minutes += minutes
  }
  return { stitchesDone: sum.stitches, hoursTenths: Math.round(sum.minutes / minutesPerTenth) }
}

/**
 * The part of the totals that no entry accounts for: what was done before the log began, or typed as a total since. Less than nothing
 * where a typed total is less than the log adds up to: it corrects the log, and stays that correction whatever is logged later.
 */
export function notInLog(totals: WorkTotals, entries: readonly Pick<LoggedWork, 'stitches' | 'minutes'>[]): WorkTotals {
  const logged = sumOfLog(entries)
  return { stitchesDone: totals.stitchesDone - logged.stitchesDone, hoursTenths: totals.hoursTenths - logged.hoursTenths }
}

/**
 * What a changed log does to a project's totals: they stay what no entry accounts for and the sum of the log together.
 *
 * A percentage is a reading of the whole work, so its entry is given the stitches that lead from those before it up to that share; when
 * an entry before it changes, they are reckoned again. Without a stitch count of the whole it is given none.
 *
 * @param totals         as they stand with `before`
 * @param before         the log before the change, `after` it; in any order
 * @param stitchesTotal  of the whole work; null where nobody knows
 * @returns the totals, and the entries whose stitches are others now. No total falls below nought: where it would, that much of the
 *   correction is given up.
 */
export function planLog(input: {
  totals: WorkTotals
  before: readonly LoggedWork[]
  after: readonly LoggedWork[]
  stitchesTotal: number | null
}): { totals: WorkTotals; settled: { id: string; stitches: number }[] } {
  const { totals, before, after, stitchesTotal } = input
  const rest = notInLog(totals, before)
  let done = rest.stitchesDone
  const settled: { id: string; stitches: number }[] = []
  const log = inOrderDone(after).map((entry) => {
    const stitches =
      entry.donePerMille === null
        ? entry.stitches
        : stitchesTotal === null
          ? 0
          : Math.round((stitchesTotal * entry.donePerMille) / 1_000) - done
    done += stitches
    if (stitches !== entry.stitches) settled.push({ id: entry.id, stitches })
    return { ...entry, stitches }
  })
  const sum = sumOfLog(log)
  return {
    totals: {
      stitchesDone: Math.max(0, rest.stitchesDone + sum.stitchesDone),
      hoursTenths: Math.max(0, rest.hoursTenths + sum.hoursTenths),
    },
    settled,
  }
}

/** What each entry brought the work on by, for reckoning a pace: in stitches, or in thousandths of the whole where only those are known. */
export type WorkUnit = 'stitches' | 'per-mille'

export type WorkProgress = {
  unit: WorkUnit
  done: number
  /** Null where nobody knows how many stitches the whole has. */
  total: number | null
  /** By entry, in the order done. */
  gains: { day: string; amount: number; minutes: number }[]
}

/**
 * How far a work has come, and by what steps. It is told in stitches, unless the whole is not known in stitches and she goes by
 * percentages.
 */
export function progressOf(input: {
  entries: readonly LoggedWork[]
  stitchesDone: number
  stitchesTotal: number | null
}): WorkProgress {
  const { stitchesDone, stitchesTotal } = input
  const entries = inOrderDone(input.entries)
  const read = entries.findLast(({ donePerMille }) => donePerMille !== null)?.donePerMille ?? null
  if (stitchesTotal !== null || read === null)
    return {
      ...{ unit: 'stitches', done: stitchesDone, total: stitchesTotal },
      gains: entries.map(({ day, stitches, minutes }) => ({ day, amount: stitches, minutes })),
    }
  let last = 0
  const gains = entries.map(({ day, donePerMille, minutes }) => {
    const amount = donePerMille === null ? 0 : donePerMille - last
    last = donePerMille ?? last
    return { day, amount, minutes }
  })
  return { unit: 'per-mille', done: read, total: 1_000, gains }
}
