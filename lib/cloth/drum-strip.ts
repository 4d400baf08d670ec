import { type CutSize, cutSize } from './finished-size'
import type { Margins } from './margins'

/** A padded tub: once round at its widest, and its height. */
export type Drum = { roundUm: number; heightUm: number }

/** Once round a drum of that width across, in whole micrometres, never under it. */
export const roundOfUm = (acrossUm: number): number => Math.ceil(acrossUm * Math.PI)

/**
 * The strip that covers a drum: once round with the side margins for the lap, its height with the margins above and below. A drum 12 in
 * round and 3 in high takes 13 × 6 in.
 *
 * @throws {RangeError} if the drum has no size.
 */
export function drumStrip(drum: Drum, settings: { margins: Margins; shrinkPercent: number; roundingUm: number }): CutSize {
  if (!(drum.roundUm > 0 && drum.heightUm > 0)) throw new RangeError(`drumStrip: ${drum.roundUm} round, ${drum.heightUm} high`)
  return cutSize({ ...settings, finished: { widthUm: drum.roundUm, heightUm: drum.heightUm } })
}
