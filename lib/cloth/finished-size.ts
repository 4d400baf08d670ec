import { roundUpUm, UM_PER_INCH } from '#lib/quantity/cloth-length'
import { type Count, pitchUm } from '#lib/quantity/count'
import type { Margins } from './margins'

/** A design's size on a cloth, in micrometres (not whole), and the pitches it was worked out with: width = stitches × acrossUm. */
export type FinishedSize = { widthUm: number; heightUm: number; acrossUm: number; upUm: number }

export type FinishedSizeRequest = {
  /** In stitches. */
  width: number
  height: number
  ends: Count
  picks: Count
  over: 1 | 2
  /** The design's width runs along the warp. */
  isTurned: boolean
}

/**
 * How large a design comes out. Upright, its width crosses the ends and its height the picks; turned, the other way about, so cloth
 * that is not square gives another size.
 *
 * @throws {RangeError} if the size is not in whole stitches, at least one each way.
 */
export function finishedSize({ width, height, ends, picks, over, isTurned }: FinishedSizeRequest): FinishedSize {
  for (const side of [width, height])
    if (!Number.isSafeInteger(side) || side < 1) throw new RangeError(`finishedSize: ${width} × ${height} stitches`)
  const acrossUm = pitchUm(isTurned ? picks : ends, over)
  const upUm = pitchUm(isTurned ? ends : picks, over)
  return { widthUm: width * acrossUm, heightUm: height * upUm, acrossUm, upUm }
}

/** Printed sizes are taken to be given to a quarter of an inch. Common practice, no published source. */
const defaultMeasureStepUm = UM_PER_INCH / 4

/** `uncertaintyUm` is half the step the size was given to; a cut adds it once to each dimension. */
export type EstimatedStitches = { width: number; height: number; uncertaintyUm: number }

/**
 * The stitches of a design known only by its size at a count: 8 × 6 in at 14 is 112 × 84, give or take half a step (1/8 in, about
 * two stitches).
 *
 * @returns whole stitches, to the nearest, at least one each way.
 * @throws {RangeError} if a side is not above nought.
 */
export function estimateStitches({
  widthUm,
  heightUm,
  count,
  over,
  measureStepUm = defaultMeasureStepUm,
}: {
  widthUm: number
  heightUm: number
  count: Count
  over: 1 | 2
  measureStepUm?: number
}): EstimatedStitches {
  if (!(widthUm > 0 && heightUm > 0)) throw new RangeError(`estimateStitches: ${widthUm} × ${heightUm} µm`)
  const stitchesIn = (um: number) => Math.max(1, Math.round(um / pitchUm(count, over)))
  return { width: stitchesIn(widthUm), height: stitchesIn(heightUm), uncertaintyUm: measureStepUm / 2 }
}

/** Cloth to cut: the exact size (not whole), by which fit is judged, and that size rounded up, which one is told to cut. */
export type CutSize = { exactWidthUm: number; exactHeightUm: number; widthUm: number; heightUm: number }

export type CutSizeRequest = {
  finished: { widthUm: number; heightUm: number }
  margins: Margins
  /** What the cloth loses when it is washed after cutting: 3 for three per cent. */
  shrinkPercent: number
  /** 1/4 in, 1/2 in or 1 cm. */
  roundingUm: number
  /** Added once to each dimension when the stitches are estimated; 0 when they are known. */
  uncertaintyUm?: number
}

/**
 * What to cut: (finished + uncertainty + margins) ÷ (1 − shrinkage). The finished size is never rounded first.
 *
 * @throws {RangeError} if the shrinkage is not from 0 to under 100, or a margin is negative.
 */
export function cutSize({ finished, margins, shrinkPercent, roundingUm, uncertaintyUm = 0 }: CutSizeRequest): CutSize {
  if (!(shrinkPercent >= 0 && shrinkPercent < 100)) throw new RangeError(`cutSize: shrinkPercent ${shrinkPercent}`)
  for (const [side, um] of Object.entries(margins)) if (!(um >= 0)) throw new RangeError(`cutSize: ${side} ${um}`)
  const beforeWashing = (um: number) => um / (1 - shrinkPercent / 100)
  const exactWidthUm = beforeWashing(finished.widthUm + uncertaintyUm + margins.leftUm + margins.rightUm)
  const exactHeightUm = beforeWashing(finished.heightUm + uncertaintyUm + margins.topUm + margins.bottomUm)
  return {
    exactWidthUm,
    exactHeightUm,
    widthUm: roundUpUm(exactWidthUm, roundingUm),
    heightUm: roundUpUm(exactHeightUm, roundingUm),
  }
}
