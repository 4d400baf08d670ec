/**
 * The stitches a key line can count. Backstitch and double running are counted in unit lengths (one pitch along a thread
 * of the cloth); `backstitchDiagonal` in units lying across a square.
 */
export const stitches = [
  'full',
  'half',
  'quarter',
  'threeQuarter',
  'tent',
  'backstitch',
  'backstitchDiagonal',
  'doubleRunning',
  'knotOneWrap',
  'knotTwoWrap',
  'bead',
] as const
export type Stitch = (typeof stitches)[number]

/** Whole numbers of stitches by type; a type left out is none of it. */
export type StitchTally = Partial<Record<Stitch, number>>

/** Whether crosses are worked in rows (all first legs, then all top legs) or each finished before the next. */
export type Working = 'rows' | 'crosses'
