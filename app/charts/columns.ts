import { sayings } from '#language/say'
import type { ColumnsKnown } from '#lib/listing/columns'

const every = [
  'cover',
  'title',
  'designer',
  'stitches',
  'finished',
  'themes',
  'season',
  'form',
  'cloth',
  'missing',
  'kind',
  'owner',
  'bought',
  'years',
  'place',
] as const
export type ChartColumnKey = (typeof every)[number]

export const chartColumnsKnown: ColumnsKnown<ChartColumnKey> = {
  every,
  usual: ['cover', 'title', 'stitches', 'finished', 'themes', 'cloth', 'place'],
  fixed: 'title',
}

/** As they are called where one chooses among them. */
export const chartColumnWords: Record<ChartColumnKey, string> = sayings({
  cover: 'Cover: what is ready',
  title: 'Chart',
  designer: 'Designer',
  stitches: 'Stitches, to scale',
  finished: 'Size at the advised count',
  themes: 'Subject and form',
  season: 'Season and occasion',
  form: 'Form',
  cloth: 'Cloth',
  missing: 'Put-ups to buy',
  kind: 'Kind',
  owner: 'Owner',
  bought: 'Bought on',
  years: 'Years owned',
  place: 'Place',
})
