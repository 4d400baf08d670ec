import { sayings } from '#language/say'
import type { MovementKind } from '#lib/stock/stock-change'

/** What was done to a thing, as its journal says it. */
export const movementWords: Record<MovementKind, string> = sayings({
  receive: 'taken into stock',
  use: 'used',
  move: 'moved',
  take: 'taken',
  return: 'put back',
  split: 'parted',
  merge: 'laid together',
  correct: 'corrected',
  transfer: 'passed on',
  cut: 'cut',
  undo: 'undone',
})
