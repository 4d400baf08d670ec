import { compareExact } from './batch'

export const abcClasses = ['A', 'B', 'C'] as const
export type AbcClass = (typeof abcClasses)[number]

/** What was used of a thread in a year: its length, and what that cost, in the price's smallest unit, or null when no price is known. */
export type YearlyUse = { threadId: string; strandTenths: number; valueMinor: number | null }

export type AbcStanding = {
  class: AbcClass
  /** `length` where no price is known; such threads are ranked among themselves. */
  by: 'value' | 'length'
  /** Of all that is ranked with it, in thousandths, rounded down. */
  sharePerMille: number
}

const upTo = { A: 0.8, B: 0.95 } as const

/** What so much of a thread cost at the price of one put-up; not rounded. */
export const valueOfUse = (strandTenths: number, putUpStrandTenths: number, priceMinor: number): number =>
  (strandTenths * priceMinor) / putUpStrandTenths

/**
 * ABC classes by yearly use: the threads that make up the first 80% of the value are A, the next 15% B, the rest C. The one that
 * crosses a line belongs before it, and threads of one value are never parted: all are of the class the first of them falls into.
 * What was not used is C. The order handed in makes no difference.
 *
 * The three shares are stock-keeping's usual ones (80/15/5).
 */
export function classifyUse(uses: readonly YearlyUse[]): Map<string, AbcStanding> {
  const classes = new Map<string, AbcStanding>()
  const rank = (by: AbcStanding['by'], ranked: { threadId: string; worth: number }[]) => {
    const total = ranked.reduce((sum, { worth }) => sum + worth, 0)
    ranked.sort((a, b) => b.worth - a.worth || compareExact(a.threadId, b.threadId))
    let before = 0
    let last: { worth: number; class: AbcClass } = { worth: Number.NaN, class: 'C' }
    for (const { threadId, worth } of ranked) {
      const share = total > 0 ? before / total : 1
      const own: AbcClass = worth <= 0 ? 'C' : share < upTo.A ? 'A' : share < upTo.B ? 'B' : 'C'
      last = { worth, class: last.worth === worth ? last.class : own }
      before += worth
      classes.set(threadId, { class: last.class, by, sharePerMille: total > 0 ? Math.floor((worth * 1_000) / total) : 0 })
    }
  }
  rank(
    'value',
    uses.flatMap(({ threadId, valueMinor }) => (valueMinor === null ? [] : [{ threadId, worth: valueMinor }])),
  )
  rank(
    'length',
    uses.flatMap(({ threadId, valueMinor, strandTenths }) => (valueMinor === null ? [{ threadId, worth: strandTenths }] : [])),
  )
  return classes
}
