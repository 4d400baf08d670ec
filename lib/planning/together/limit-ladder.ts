import type { Buying } from './choice-world'

/** Put-ups that are tried where the limit asked is no larger; beyond, every other is left out more and more. */
const putUpSteps = [0, 1, 2, 3, 5, 8, 13, 21, 34, 55, 89]
/** Parts of the money asked. */
const budgetParts = [0, 0.25, 0.5, 0.75, 1, 1.25, 1.5]
/** What is shown where nothing was to be bought: what the first few would unlock. */
const firstPutUps = 5
/** So many steps are looked at beyond what was asked, to see what a little more would bring. */
const beyond = 2

/**
 * The limits to look at around the one asked, least first, the one asked among them: what each put-up more, or each part of the money,
 * brings.
 */
export function limitLadder(buying: Buying): Buying[] {
  if (buying.kind === 'budget') {
    const amounts = budgetParts.map((part) => Math.round(buying.mostMinor * part))
    return [...new Set(amounts)].map((mostMinor) => ({ kind: 'budget', mostMinor }))
  }
  const most = buying.kind === 'nothing' ? 0 : buying.most
  const below = putUpSteps.filter((step) => step < most)
  const above = [1, 2, 3, 4, 5].slice(0, buying.kind === 'nothing' ? firstPutUps : beyond).map((more) => most + more)
  return [...below, most, ...above].map((step) => ({ kind: 'put-ups', most: step }))
}
