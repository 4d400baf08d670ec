import { compareExact } from '#lib/stock/batch'
import type { WhatIf } from './engine'
import { statusRanks } from './line-status'

/**
 * What a supposed change of stock does to a design: it can be stitched; it can with swaps; less is wanting; more is; or only one of its
 * threads stands otherwise, and as much is to be bought as before.
 */
export const outcomes = ['opened', 'openedWithSwaps', 'nearer', 'worse', 'inPart'] as const
export type Outcome = (typeof outcomes)[number]

/** More can be wanted after buying: a thread whose lots do not match wants all of its need in one. */
export function outcomeOf({ before, after }: WhatIf): Outcome {
  if (before.isStitchable !== after.isStitchable) return after.isStitchable ? 'opened' : 'worse'
  if (before.isStitchableWithSwaps !== after.isStitchableWithSwaps)
    return after.isStitchableWithSwaps ? 'openedWithSwaps' : 'worse'
  if (after.isStitchableWithSwaps) return 'inPart'
  if (before.buyPutUps !== after.buyPutUps) return after.buyPutUps < before.buyPutUps ? 'nearer' : 'worse'
  if (after.buyPutUps > 0) return 'inPart'
  const better = statusRanks[after.status] - statusRanks[before.status]
  return better > 0 ? 'nearer' : better < 0 ? 'worse' : 'inPart'
}

/** Designs by what becomes of them; in each, the fewest left to buy first, then the greatest step, then the better status, then by id. */
export function byOutcome(changed: readonly WhatIf[]): Record<Outcome, WhatIf[]> {
  const groups: Record<Outcome, WhatIf[]> = { opened: [], openedWithSwaps: [], nearer: [], worse: [], inPart: [] }
  for (const one of changed) groups[outcomeOf(one)].push(one)
  for (const group of Object.values(groups)) {
    group.sort(
      (a, b) =>
        a.after.buyPutUps - b.after.buyPutUps ||
        b.before.buyPutUps - a.before.buyPutUps ||
        statusRanks[b.after.status] - statusRanks[a.after.status] ||
        compareExact(a.designId, b.designId),
    )
  }
  return groups
}
