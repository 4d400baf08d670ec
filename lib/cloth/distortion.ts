import { type Count, perInch, pitchUm, sameCount } from '#lib/quantity/count'

/** How a circle of the design comes out on cloth that was not counted the same both ways. */
export type Distortion = {
  /** Stitches across the circle. */
  stitches: number
  wideUm: number
  tallUm: number
  way: 'taller' | 'wider'
  /** By how much, in micrometres, not whole. */
  differenceUm: number
  /** How much finer the finer way is counted: 4.9 for 32.0 × 30.5. */
  percent: number
}

/**
 * A circle as wide as the design's smaller side. 128 stitches over two on 32.0 ends × 30.5 picks are 8.000 wide and 8.393 in tall.
 *
 * @param isTurned  the design's width runs along the warp: it then crosses the picks
 * @returns null on cloth of one count both ways
 */
export function distortionOf(
  design: { width: number; height: number },
  cloth: { ends: Count; picks: Count },
  over: 1 | 2,
  isTurned: boolean,
): Distortion | null {
  const { ends, picks } = cloth
  if (sameCount(ends, picks)) return null
  const stitches = Math.min(design.width, design.height)
  const wideUm = stitches * pitchUm(isTurned ? picks : ends, over)
  const tallUm = stitches * pitchUm(isTurned ? ends : picks, over)
  const [fine, coarse] = [Math.max(perInch(ends), perInch(picks)), Math.min(perInch(ends), perInch(picks))]
  return {
    stitches,
    wideUm,
    tallUm,
    way: tallUm > wideUm ? 'taller' : 'wider',
    differenceUm: Math.abs(tallUm - wideUm),
    percent: (fine / coarse - 1) * 100,
  }
}
