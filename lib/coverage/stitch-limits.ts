import { type FitPiece, shrinkOf, squaringLossUm } from '#lib/cloth/fit'
import { pitchUm } from '#lib/quantity/count'
import type { ClothSettings } from './cloth-answer'

/** Under what a design goes on a piece: with the margins asked, the same after the usual loss in squaring, with no margin at all. */
export const limitKinds = { asked: 0, squared: 4, bare: 8 } as const

/** Numbers kept of a piece: for each kind of limit width and height upright, then width and height turned. */
export const limitStride = 12

/** Whether a design is within two limits that stand one after the other. */
export const isUnder = (limits: Int32Array, at: number, width: number, height: number): boolean =>
  width <= (limits[at] as number) && height <= (limits[at + 1] as number)

/** As in `fitOneWay`, whose arithmetic this repeats on bare numbers to the last bit. */
const toleranceUm = 1e-3

/**
 * The largest design a piece takes, in stitches, written into `limits` from `at` on (see `limitKinds`, `limitStride`).
 *
 * Fit is two comparisons once a piece is measured in the stitches it takes, whatever its count, its wash and its margins are:
 *
 *   fits ⇔ width ≤ limits[0] and height ≤ limits[1], or turned: width ≤ limits[2] and height ≤ limits[3]
 *
 * and so pieces of different counts lie in one plane, where they can be counted together. Turned limits of a piece that may not be
 * turned are nought, which no design is under. 12 divisions a piece.
 *
 * @param uncertaintyUm  of a design known only by its size; its limits are others
 */
export function writeStitchLimits(
  limits: Int32Array,
  at: number,
  piece: FitPiece,
  request: { over: 1 | 2; uncertaintyUm: number; settings: ClothSettings },
): void {
  const { over, uncertaintyUm, settings } = request
  const { leftUm, rightUm, topUm, bottomUm } = settings.margins
  const afterWashing = 1 - shrinkOf(piece, settings.shrinkPercent) / 100
  const [endsUm, picksUm] = [pitchUm(piece.ends, over), pitchUm(piece.picks, over)]
  const lossUm = piece.isSquared ? 0 : 2 * squaringLossUm
  limits.fill(0, at, at + limitStride)
  for (let turn = 0; turn < (piece.isTurnable ? 2 : 1); turn++) {
    const way = at + turn * 2
    const [acrossUm, upUm] = turn === 0 ? [endsUm, picksUm] : [picksUm, endsUm]
    const [widthUm, heightUm] = turn === 0 ? [piece.widthUm, piece.heightUm] : [piece.heightUm, piece.widthUm]
    const [across, up] = [way, way + 1]
    limits[across] = largest(widthUm, acrossUm, uncertaintyUm, leftUm, rightUm, afterWashing, 0)
    limits[up] = largest(heightUm, upUm, uncertaintyUm, topUm, bottomUm, afterWashing, 0)
    const { squared, bare } = limitKinds
    limits[across + squared] = largest(widthUm, acrossUm, uncertaintyUm, leftUm, rightUm, afterWashing, lossUm)
    limits[up + squared] = largest(heightUm, upUm, uncertaintyUm, topUm, bottomUm, afterWashing, lossUm)
    // Fit as asked is judged first: what fits so never counts as too large without margins for a rounding's sake.
    const bareAcross = largestBare(widthUm, acrossUm, uncertaintyUm, afterWashing)
    const bareUp = largestBare(heightUm, upUm, uncertaintyUm, afterWashing)
    limits[across + bare] = Math.max(bareAcross, limits[across] as number)
    limits[up + bare] = Math.max(bareUp, limits[up] as number)
  }
}

/** The most stitches whose exact cut leaves at least `spareUm` of a side; nought when none does. */
function largest(
  sideUm: number,
  stitchUm: number,
  uncertaintyUm: number,
  oneUm: number,
  otherUm: number,
  afterWashing: number,
  spareUm: number,
): number {
  // The quotient may be off by a rounding: the sum itself decides, as in `fitOneWay`.
  let stitches = wholeOrNought(((sideUm - spareUm) * afterWashing - uncertaintyUm - oneUm - otherUm) / stitchUm) + 1
  while (
    stitches > 0 &&
    sideUm - (stitches * stitchUm + uncertaintyUm + oneUm + otherUm) / afterWashing < spareUm - toleranceUm
  ) {
    stitches--
  }
  return stitches
}

/** The most stitches that go on a side with no margin. */
function largestBare(sideUm: number, stitchUm: number, uncertaintyUm: number, afterWashing: number): number {
  let stitches = wholeOrNought((sideUm * afterWashing - uncertaintyUm) / stitchUm) + 1
  while (stitches > 0 && sideUm * afterWashing - stitches * stitchUm - uncertaintyUm < -toleranceUm) stitches--
  return stitches
}

const wholeOrNought = (quotient: number): number => Math.max(0, Math.floor(quotient))
