/** The way of a bag: filled, looked through by another, closed, gone. */
export const bagStatuses = ['open', 'packed', 'checked', 'sealed', 'sold'] as const
export type BagStatus = (typeof bagStatuses)[number]

/** How many bags stand where. */
export function countBags(bags: readonly { status: BagStatus }[]): Record<BagStatus, number> {
  const counts: Record<BagStatus, number> = { open: 0, packed: 0, checked: 0, sealed: 0, sold: 0 }
  for (const { status } of bags) counts[status] += 1
  return counts
}
