import type { Stitch, Working } from './stitches'

/** The distance one stitch spans sideways (across the ends, when upright) and upwards, in micrometres. */
export type Pitches = { acrossUm: number; upUm: number }

/** A small flat amount of thread a stitch takes whatever the cloth. Common practice, no published source. */
const flatUmOf: Partial<Record<Stitch, number>> = { knotOneWrap: 12_000, knotTwoWrap: 20_000, bead: 3_000 }

/** @returns the part of a stitch's thread that does not follow the cloth, one strand, in micrometres. */
export const flatLengthUm = (stitch: Stitch): number => flatUmOf[stitch] ?? 0

/**
 * The part of a stitch's thread that follows the cloth: one strand of one stitch in the long run of a row of neighbours, front and
 * back, in micrometres.
 *
 * Plane geometry on the holes of the cloth; thread and cloth have no thickness, and ends, travel and slack are left to the allowance.
 * On square cloth of pitch p, d = √2 p being the diagonal, the routes are (front + back):
 *
 *   full, in rows     2d + 2p      = 2(√2 + 1) p   both legs of a row come up straight below or above where they went down
 *   full, one by one  2d + p + d   = (3√2 + 1) p   one upright inside the cross, then slanting to the next cross
 *   half              d + p        = (√2 + 1) p
 *   quarter           d/2 + d/2    = √2 p          corner to centre, then back to the next square's corner
 *   three-quarter     3d/2 + p + d/2 = (2√2 + 1) p half first, then the quarter
 *   tent              d + √5 p                     two squares along and one up at the back
 *   backstitch        p + 2p       = 3p            a unit along a thread; 3d across a square
 *   double running    p + p        = 2p            there and back along the same line
 *   satin             p + p        = 2p            a unit of throw, and as much behind on the way to the next throw
 *   eyelet            4(p + d) + 4(p + d) = 8(√2 + 1) p   four straight arms and four across; see below
 *
 * An eyelet fills two stitches by two. Its thread comes up at each of the eight holes round the edge by turns and goes down in the
 * middle: four arms of p and four of d in front, and as much behind, since every arm begins with the way from a middle out to its
 * first hole. That holds between eyelets too: the next begins at a hole it shares with the last, as far from the one middle as from
 * the other.
 *
 * Behind a satin stitch the thread slants by the width of one throw, which is left out: throws a thread apart, over two, add 1.5 % to
 * those two units long and less to longer ones.
 *
 * On cloth that is not square, diagonals are √(across² + up²), the uprights behind the rows are `upUm`, and tent's back leg crosses two
 * across and one up. A line's direction is not recorded, so backstitch, double running and satin take the mean of the two pitches.
 */
export function pitchedLengthUm(stitch: Stitch, working: Working, { acrossUm, upUm }: Pitches): number {
  const diagonalUm = Math.hypot(acrossUm, upUm)
  const lineUm = (acrossUm + upUm) / 2
  switch (stitch) {
    case 'full':
      return working === 'rows' ? 2 * diagonalUm + 2 * upUm : 3 * diagonalUm + upUm
    case 'half':
    case 'bead':
      return diagonalUm + upUm
    case 'quarter':
      return diagonalUm
    case 'threeQuarter':
      return 2 * diagonalUm + upUm
    case 'tent':
      return diagonalUm + Math.hypot(2 * acrossUm, upUm)
    case 'backstitch':
      return 3 * lineUm
    case 'backstitchDiagonal':
      return 3 * diagonalUm
    case 'doubleRunning':
    case 'satin':
      return 2 * lineUm
    case 'eyelet':
      return 8 * lineUm + 8 * diagonalUm
    case 'knotOneWrap':
    case 'knotTwoWrap':
      return 0
  }
}

/** @returns all the thread of one stitch, one strand, without allowance, in micrometres (not whole). */
export const stitchLengthUm = (stitch: Stitch, working: Working, pitches: Pitches): number =>
  pitchedLengthUm(stitch, working, pitches) + flatLengthUm(stitch)
