/** What a thing of the small drawers is, in the order a list shows them. */
export const notionKinds = [
  'hoop',
  'frame',
  'needle',
  'scissors',
  'beads',
  'ribbon',
  'needle minder',
  'laying tool',
  'magnifier',
  'bag',
  'finding',
  'other',
] as const
export type NotionKind = (typeof notionKinds)[number]

/** What is written on a notion's card. Notions are counted, not measured: `size` is how it is sold. */
export type NotionCard = {
  kind: NotionKind
  name: string
  /** 10 in, size 26, 2 mm. */
  size: string | null
  /** Fewer than this, and it is to be bought; null where nobody said. */
  minimum: number | null
  /** How many a pack holds, where it is sold in packs. */
  packOf: number | null
  priceMinor: number | null
  note: string | null
}
