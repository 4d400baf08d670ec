import type { Design } from '#lib/chart/design'
import { stitchSize } from '#lib/chart/design-size'
import type { ClothPiece } from '#lib/cloth/cloth-piece'
import { type ClothRequest, fitPiece } from '#lib/cloth/fit'
import { type ClothSettings, overOn } from './cloth-answer'
import type { WorkedCloth } from './need'

/** What a design asks of cloth; null when its size is not known. */
export function clothRequest(
  design: Pick<Design, 'size' | 'advised'>,
  over: 1 | 2,
  settings: ClothSettings,
): ClothRequest | null {
  const size = stitchSize(design)
  return size && { width: size.width, height: size.height, uncertaintyUm: size.uncertaintyUm, over, ...settings }
}

/**
 * The cloth a design is worked on: its piece, the way round it fits best, over what was chosen or else the chart advises. Without a
 * piece, the advised count over what was chosen; null when nothing was chosen either, for then the chart's own figures stand.
 */
export function workedCloth(
  design: Pick<Design, 'size' | 'advised'>,
  piece: ClothPiece | null,
  over: 1 | 2 | null,
  settings: ClothSettings,
): WorkedCloth | null {
  if (!piece) {
    if (over === null || design.advised === null) return null
    return { ends: design.advised.count, picks: design.advised.count, over, isTurned: false }
  }
  const chosenOver = over ?? overOn(piece.weave, design.advised)
  const request = clothRequest(design, chosenOver, settings)
  const isTurned = request !== null && fitPiece(request, piece).isTurned
  return { ends: piece.ends, picks: piece.picks, over: chosenOver, isTurned }
}
