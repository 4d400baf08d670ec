import type { Count } from '#lib/quantity/count'
import { byText } from '#lib/quantity/text-order'
import type { ClothPiece } from './cloth-piece'
import { type CutSize, cutSize, finishedSize } from './finished-size'
import { type ClothRequest, compareFits, fitPiece, type PieceFit } from './fit'

/** A request, and the count of the cloth one would buy for it (null when none is advised). */
export type ChoiceRequest = ClothRequest & { buyCount: Count | null }

/** A piece that can be used, as it is or with smaller margins. `leftAreaUm2` is what remains of it after the exact cut. */
export type RankedPiece = { piece: ClothPiece; fit: Exclude<PieceFit, { kind: 'too-small' }>; leftAreaUm2: number }

export type PieceChoice = {
  /** Pieces that can be used, best first. */
  ranked: RankedPiece[]
  /** The first of them, when it fits with the margins asked for. */
  best: RankedPiece | null
  /** What to buy when none fits with the margins asked for. */
  toBuy: CutSize | null
}

export function byBestFirst(a: RankedPiece, b: RankedPiece): number {
  return (
    compareFits(a.fit, b.fit) ||
    Number(b.piece.isOffcut) - Number(a.piece.isOffcut) ||
    a.leftAreaUm2 - b.leftAreaUm2 ||
    byText(a.piece.label ?? '', b.piece.label ?? '') ||
    byText(a.piece.id, b.piece.id)
  )
}

/**
 * Which piece to cut. Reserved pieces are never offered. Those that fit come before those that fit with smaller margins (largest
 * margin first), and those that will still fit once squared before those that may not; then offcuts before whole pieces, the least
 * cloth left over, label, id. The order of `pieces` makes no difference. Whether a piece is of the right kind is for the caller
 * (see `isAdvisedCloth`).
 */
export function choosePiece(request: ChoiceRequest, pieces: readonly ClothPiece[]): PieceChoice {
  const ranked: RankedPiece[] = []
  for (const piece of pieces) {
    if (piece.isReserved) continue
    const fit = fitPiece(request, piece)
    if (fit.kind === 'too-small') continue
    ranked.push({ piece, fit, leftAreaUm2: piece.widthUm * piece.heightUm - fit.cut.exactWidthUm * fit.cut.exactHeightUm })
  }
  ranked.sort(byBestFirst)
  const first = ranked[0]
  const best = first?.fit.kind === 'fits' ? first : null
  return { ranked, best, toBuy: best === null ? cutToBuy(request) : null }
}

/** The cloth to buy for a request, upright on square cloth of the advised count; null when no count is advised. */
function cutToBuy(request: ChoiceRequest): CutSize | null {
  if (request.buyCount === null) return null
  const finished = finishedSize({ ...request, ends: request.buyCount, picks: request.buyCount, isTurned: false })
  return cutSize({ ...request, finished })
}
