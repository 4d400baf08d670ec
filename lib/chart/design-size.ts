import { estimateStitches } from '#lib/cloth/finished-size'
import type { Design } from './design'

/** A design's size in stitches. When it was worked out from a ruled size, `uncertaintyUm` is half the step that was ruled to; else 0. */
export type StitchSize = { width: number; height: number; uncertaintyUm: number; isEstimated: boolean }

/** @returns null when no size is known, or only a ruled one without the count it was ruled at. */
export function stitchSize(design: Pick<Design, 'size' | 'advised'>, measureStepUm?: number): StitchSize | null {
  const { size, advised } = design
  if (size.kind === 'stitches') return { width: size.width, height: size.height, uncertaintyUm: 0, isEstimated: false }
  if (size.kind === 'unknown' || advised === null) return null
  const { widthUm, heightUm } = size
  return {
    ...estimateStitches({ widthUm, heightUm, count: advised.count, over: advised.over, measureStepUm }),
    isEstimated: true,
  }
}
