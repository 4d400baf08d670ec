/**
 * The stitches a key line can count. Backstitch, double running and satin are counted in unit lengths (one pitch along a thread
 * of the cloth; satin in the lengths of its throws, so that twenty throws over three stitches are 60); `backstitchDiagonal` in
 * units lying across a square. An eyelet has eight arms and fills a square of two stitches by two.
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
  'satin',
  'eyelet',
  'knotOneWrap',
  'knotTwoWrap',
  'bead',
] as const
export type Stitch = (typeof stitches)[number]

/** Whole numbers of stitches by type; a type left out is none of it. */
export type StitchTally = Partial<Record<Stitch, number>>

/** Whether crosses are worked in rows (all first legs, then all top legs) or each finished before the next. */
export type Working = 'rows' | 'crosses'
