import { sayings } from '#language/say'
import type { ColumnsKnown } from '#lib/listing/columns'

const every = ['drawn', 'name', 'count', 'size', 'words', 'maker', 'owner', 'washed', 'place'] as const
export type ClothColumnKey = (typeof every)[number]

export const clothColumnsKnown: ColumnsKnown<ClothColumnKey> = {
  every,
  usual: ['drawn', 'name', 'count', 'size', 'words', 'place'],
  fixed: 'name',
}

/** As they are called where one chooses among them. */
export const clothColumnWords: Record<ClothColumnKey, string> = sayings({
  drawn: 'Drawn to scale',
  name: 'Piece',
  count: 'Count',
  size: 'Size',
  words: 'To know',
  maker: 'Maker',
  owner: 'Owner',
  washed: 'Washed on',
  place: 'Place',
})
