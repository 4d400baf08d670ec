import { type Count, meanPerInch, perInch } from '#lib/quantity/count'
import { textKey } from '#lib/quantity/text-key'
import type { ClothPiece, Weave } from './cloth-piece'

/** The part of a chart's advice that a piece of cloth is matched by. */
export type ClothAdvice = { count: Count; weave: Weave | null; insists: boolean; name: string | null }

/** How far a cloth's mean count may lie from the advised one. Chosen, no published source: it takes in 27 for 28, not 30 or 32. */
const countTolerance = 0.05

/**
 * Whether a piece is of the kind a chart advises. Weaves must be the same where the chart names one: single-thread cloths (evenweave,
 * linen) stand in for one another, block cloth for neither. A chart that insists on a named cloth takes only pieces whose name holds
 * that name. The mean of ends and picks must lie within 5 % of the advised count.
 */
export function isAdvisedCloth(piece: Pick<ClothPiece, 'weave' | 'ends' | 'picks' | 'name'>, advised: ClothAdvice): boolean {
  if (advised.weave !== null && piece.weave !== advised.weave) return false
  if (advised.insists && advised.name !== null && !textKey(piece.name).includes(textKey(advised.name))) return false
  return isNearCount(piece, perInch(advised.count))
}

/** Whether the mean of a cloth's ends and picks lies within 5 % of a count: 31 × 33 is near 32, and so are 31 and 33. */
export const isNearCount = ({ ends, picks }: Pick<ClothPiece, 'ends' | 'picks'>, wantedPerInch: number): boolean =>
  Math.abs(meanPerInch(ends, picks) - wantedPerInch) <= wantedPerInch * countTolerance + 1e-9

/** What lies near a count, in threads to the inch. */
export const nearCountRange = (wantedPerInch: number): { least: number; most: number } => ({
  least: wantedPerInch * (1 - countTolerance),
  most: wantedPerInch * (1 + countTolerance),
})

/** @returns the count as one speaks of it, whole threads to the inch: `28` (also for 110 per 10 cm), or `34 × 31`. */
export function nominalCountLabel(ends: Count, picks: Count): string {
  const [across, up] = [Math.round(perInch(ends)), Math.round(perInch(picks))]
  return across === up ? String(across) : `${across} × ${up}`
}

/** @returns what pieces of one kind share, for grouping: weave and spoken count, `single 28`. */
export const clothKindKey = (piece: Pick<ClothPiece, 'weave' | 'ends' | 'picks'>): string =>
  `${piece.weave} ${nominalCountLabel(piece.ends, piece.picks)}`
