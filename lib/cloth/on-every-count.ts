import { meanPerInch } from '#lib/quantity/count'
import { byBestFirst, choosePiece, type RankedPiece } from './choose-piece'
import type { ClothPiece, Weave } from './cloth-piece'
import { type ClothRequest, compareFits, fitPiece, type PieceFit } from './fit'
import { clothKindKey } from './match-cloth'
import { requestInThreads, type SizeQuestion } from './motifs'

/** One weave and spoken count on hand, and how its pieces take the question. */
export type CountOnHand = {
  /** As `clothKindKey` has it. */
  kind: string
  weave: Weave
  over: 1 | 2
  pieceCount: number
  reservedCount: number
  /** Free pieces that can be used, as asked or with smaller margins; the one that wastes least first. */
  ranked: RankedPiece[]
  /** The best of them; where none can be used, what lacks least; a reserved piece only where all are reserved. */
  piece: ClothPiece
  request: ClothRequest
  fit: PieceFit
}

/**
 * How the question comes out on every count on hand. Best first: those with a free piece that fits, then with one that would at smaller
 * margins; equal ones from coarse to fine. The order of `pieces` makes no difference.
 */
export function sizeOnEveryCount(
  question: SizeQuestion,
  pieces: readonly ClothPiece[],
  overFor: (weave: Weave) => 1 | 2,
): CountOnHand[] {
  const kinds = new Map<string, ClothPiece[]>()
  for (const piece of pieces) kinds.set(clothKindKey(piece), [...(kinds.get(clothKindKey(piece)) ?? []), piece])
  const counts = [...kinds].map(([kind, members]) => sizeOnKind(question, kind, members, overFor))
  const coarseness = ({ piece }: CountOnHand) => meanPerInch(piece.ends, piece.picks)
  return counts.sort(
    (a, b) =>
      Number(isAllReserved(a)) - Number(isAllReserved(b)) ||
      compareFits(a.fit, b.fit) ||
      coarseness(a) - coarseness(b) ||
      (a.kind < b.kind ? -1 : a.kind > b.kind ? 1 : 0),
  )
}

/** Every piece of it is kept for something. */
export const isAllReserved = ({ pieceCount, reservedCount }: Pick<CountOnHand, 'pieceCount' | 'reservedCount'>): boolean =>
  reservedCount === pieceCount

function sizeOnKind(
  question: SizeQuestion,
  kind: string,
  members: readonly ClothPiece[],
  overFor: (weave: Weave) => 1 | 2,
): CountOnHand {
  const { weave } = members[0] as ClothPiece
  const over = overFor(weave)
  const request = requestInThreads(question, over)
  const free = members.filter(({ isReserved }) => !isReserved)
  const { ranked } = choosePiece({ ...request, buyCount: null }, free)
  const best = ranked[0] ?? nearestOf(request, free.length > 0 ? free : members)
  const { piece, fit } = best
  return {
    ...{ kind, weave, over, request, ranked, piece, fit },
    pieceCount: members.length,
    reservedCount: members.length - free.length,
  }
}

function nearestOf(request: ClothRequest, pieces: readonly ClothPiece[]): { piece: ClothPiece; fit: PieceFit } {
  const judged = pieces.map((piece) => ({ piece, fit: fitPiece(request, piece) }))
  judged.sort((a, b) => compareFits(a.fit, b.fit) || (a.piece.id < b.piece.id ? -1 : 1))
  return judged[0] as { piece: ClothPiece; fit: PieceFit }
}

/**
 * The pieces that can be used for a question, of cloths worked over different numbers of threads together, best first, as `choosePiece`
 * ranks them. Reserved pieces are passed over.
 */
export function rankPieces(
  question: SizeQuestion,
  pieces: readonly ClothPiece[],
  overFor: (weave: Weave) => 1 | 2,
): RankedPiece[] {
  const weaves = [...new Set(pieces.map(({ weave }) => weave))]
  return weaves
    .flatMap((weave) => {
      const ofWeave = pieces.filter((piece) => piece.weave === weave)
      return choosePiece({ ...requestInThreads(question, overFor(weave)), buyCount: null }, ofWeave).ranked
    })
    .sort(byBestFirst)
}
