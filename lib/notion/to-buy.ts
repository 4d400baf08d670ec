import type { NotionCard } from './notion'

export type ToBuy = {
  /** How many short of the minimum and of what kits under way want. */
  short: number
  /** Whole packs that make it up; null where it is not sold in packs. */
  packs: number | null
}

/**
 * What to buy of a notion of which there are fewer than its minimum, beside what kits under way want of it; null when there are enough,
 * or nobody said how many are.
 *
 * @param of.forKits  wanted for kits and not taken for them yet; none when left out
 */
export function toBuy(of: Pick<NotionCard, 'minimum' | 'packOf'> & { count: number; forKits?: number }): ToBuy | null {
  const { count, minimum, packOf, forKits = 0 } = of
  const wanted = (minimum ?? 0) + forKits
  if (count >= wanted) return null
  const short = wanted - count
  return { short, packs: packOf === null ? null : Math.ceil(short / packOf) }
}
