/** What else goes into a kit besides thread, cloth and chart, in the order a list shows it. */
export const kitItemKinds = ['needle', 'beads', 'finding', 'sheet', 'other'] as const
export type KitItemKind = (typeof kitItemKinds)[number]

/** One such thing: how many of it go into each kit, and the stock it is taken from. */
export type KitItem = {
  id: string
  kind: KitItemKind
  name: string
  perKit: number
  /** Null where no stock of it is kept, or none is chosen yet. */
  notionId: string | null
  /** What one costs, where the stock does not say; null where nobody said. */
  priceMinor: number | null
  note: string | null
}
