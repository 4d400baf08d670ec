import type { NotionCard } from './notion'

export type ToBuy = {
  /** How many short of the minimum. */
  short: number
  /** Whole packs that make it up; null where it is not sold in packs. */
  packs: number | null
}

/** What to buy of a notion of which there are fewer than its minimum; null when there are enough, or nobody said how many are. */
export function toBuy({ count, minimum, packOf }: Pick<NotionCard, 'minimum' | 'packOf'> & { count: number }): ToBuy | null {
  if (minimum === null || count >= minimum) return null
  const short = minimum - count
  return { short, packs: packOf === null ? null : Math.ceil(short / packOf) }
}
