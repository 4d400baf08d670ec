import { sayings } from '#language/say'
import type { ColumnsKnown } from '#lib/listing/columns'

const every = ['bar', 'code', 'maker', 'family', 'free', 'owned', 'out', 'promised', 'minimum', 'designs', 'place'] as const
export type ThreadColumnKey = (typeof every)[number]

export const threadColumnsKnown: ColumnsKnown<ThreadColumnKey> = {
  every,
  usual: ['bar', 'code', 'family', 'free', 'owned', 'out', 'promised', 'place'],
  fixed: 'code',
}

/** As they are called where one chooses among them. */
export const threadColumnWords: Record<ThreadColumnKey, string> = sayings({
  bar: 'Colour',
  code: 'Thread',
  maker: 'Maker and line',
  family: 'Colour family',
  free: 'Free',
  owned: 'Owned',
  out: 'Out',
  promised: 'Promised',
  minimum: 'Least to keep',
  designs: 'Designs using it',
  place: 'Place',
})
