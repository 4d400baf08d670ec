import { type ClothRequest, type FitPiece, fitPiece, type PieceFit, squaringLossUm } from './fit'

/** A piece of nominal size as it will likely measure once squared: the usual loss off each of its sides. */
const afterSquaring = <Piece extends FitPiece>(piece: Piece): Piece => ({
  ...piece,
  widthUm: Math.max(1, piece.widthUm - 2 * squaringLossUm),
  heightUm: Math.max(1, piece.heightUm - 2 * squaringLossUm),
  isSquared: true,
})

/** How a piece of nominal size takes the request after the usual loss; null when it is squared already and its fit stands. */
export const fitAfterSquaring = (request: ClothRequest, piece: FitPiece): PieceFit | null =>
  piece.isSquared ? null : fitPiece(request, afterSquaring(piece))
