import { sayings } from '#language/say'
import type { ColumnsKnown } from '#lib/listing/columns'

const every = ['name', 'kind', 'count', 'words', 'minimum', 'pack', 'owner', 'place'] as const
export type NotionColumnKey = (typeof every)[number]

export const notionColumnsKnown: ColumnsKnown<NotionColumnKey> = {
  every,
  usual: ['name', 'count', 'words', 'place'],
  fixed: 'name',
}

/** As they are called where one chooses among them. */
export const notionColumnWords: Record<NotionColumnKey, string> = sayings({
  name: 'Notion',
  kind: 'Kind',
  count: 'How many',
  words: 'To know',
  minimum: 'Least to keep',
  pack: 'How many in a pack',
  owner: 'Owner',
  place: 'Place',
})
