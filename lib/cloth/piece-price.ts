/** A piece as its price is followed: also one that is used up. */
export type PricedPiece = {
  id: string
  parentId: string | null
  widthUm: number
  heightUm: number
  priceMinor: number | null
  isGone: boolean
}

export type PieceShare = {
  /** Whole minor units, or a fraction of one where it is a share of what a larger piece cost; null where nobody said. */
  priceMinor: number | null
  /** Its price is a share of the piece it was cut from, by area. */
  isShare: boolean
  /** Of it, without what came back as offcuts. */
  usedUm2: number
  ofUm2: number
}

const areaOf = ({ widthUm, heightUm }: PricedPiece): number => widthUm * heightUm

/**
 * What a piece of cloth cost, and how much of it was used: the offcuts that came back are not. An offcut without a price of its own has
 * its share, by area, of what the piece it came from cost.
 *
 * @param pieces  it, all it came from, and all that was cut from these
 * @throws {RangeError} if it is not among them
 */
export function sharePieces(pieces: readonly PricedPiece[]): (pieceId: string) => PieceShare {
  const byId = new Map(pieces.map((piece) => [piece.id, piece]))
  const cutOff = new Map<string, number>()
  for (const piece of pieces)
    if (piece.parentId !== null) cutOff.set(piece.parentId, (cutOff.get(piece.parentId) ?? 0) + areaOf(piece))
  /** Before anything was cut from it: one still here was made smaller by each cut, one used up kept its last size. */
  const wholeOf = (piece: PricedPiece): number => {
    const off = cutOff.get(piece.id) ?? 0
    return piece.isGone ? Math.max(areaOf(piece), off) : areaOf(piece) + off
  }
  const priceOf = (piece: PricedPiece): number | null => {
    if (piece.priceMinor !== null) return piece.priceMinor
    const parent = byId.get(piece.parentId ?? '')
    const price = parent ? priceOf(parent) : null
    return parent && price !== null ? (price * wholeOf(piece)) / wholeOf(parent) : null
  }
  return (pieceId) => {
    const piece = byId.get(pieceId)
    if (!piece) throw new RangeError(`sharePieces: no piece ${pieceId}`)
    const ofUm2 = wholeOf(piece)
    const usedUm2 = Math.max(0, ofUm2 - (cutOff.get(pieceId) ?? 0))
    return { priceMinor: priceOf(piece), isShare: piece.priceMinor === null, usedUm2, ofUm2 }
  }
}
