import { ok, type Result, refused } from '#lib/result'

export type PieceSize = { widthUm: number; heightUm: number }

export type CutRefusal =
  | { kind: 'nothing-cut' }
  /** More cloth after the cut than before it. Square micrometres. */
  | { kind: 'more-than-it-was'; heldUm2: number; partsUm2: number }
  /** A part that cannot come out of the piece, whichever way it is turned; `part` counts from 1, 0 is what the piece itself becomes. */
  | { kind: 'part-too-large'; part: number; widthUm: number; heightUm: number }

const area = (size: PieceSize): number => size.widthUm * size.heightUm

/** Whether one size lies inside another, upright or turned. */
const liesIn = (part: PieceSize, piece: PieceSize): boolean =>
  (part.widthUm <= piece.widthUm && part.heightUm <= piece.heightUm) ||
  (part.widthUm <= piece.heightUm && part.heightUm <= piece.widthUm)

/**
 * Whether a cut can be as it is told: every part comes out of the piece, and all together are no more cloth than it was.
 * What they are less is waste, in square micrometres.
 *
 * @param remaining  what the piece itself becomes; null when nothing is left of it
 * @param offcuts    the new pieces
 * @throws {RangeError} if a side is not a whole number above nought
 */
export function checkCut(
  piece: PieceSize,
  remaining: PieceSize | null,
  offcuts: readonly PieceSize[],
): Result<{ wasteUm2: number }, CutRefusal> {
  for (const { widthUm, heightUm } of [piece, ...(remaining ? [remaining] : []), ...offcuts])
    if (!(Number.isSafeInteger(widthUm) && Number.isSafeInteger(heightUm) && widthUm > 0 && heightUm > 0))
      throw new RangeError(`checkCut: ${widthUm} × ${heightUm} µm`)
  const isAsItWas = remaining !== null && remaining.widthUm === piece.widthUm && remaining.heightUm === piece.heightUm
  if (isAsItWas && offcuts.length === 0) return refused({ kind: 'nothing-cut' })
  const parts = [remaining, ...offcuts]
  for (const [part, size] of parts.entries())
    if (size && !liesIn(size, piece))
      return refused({ kind: 'part-too-large', part, widthUm: size.widthUm, heightUm: size.heightUm })
  const heldUm2 = area(piece)
  const partsUm2 = parts.reduce((sum, size) => sum + (size ? area(size) : 0), 0)
  return partsUm2 > heldUm2 ? refused({ kind: 'more-than-it-was', heldUm2, partsUm2 }) : ok({ wasteUm2: heldUm2 - partsUm2 })
}
