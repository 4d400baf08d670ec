import type { AdvisedCloth, Design } from '#lib/chart/design'
import { type StitchSize, stitchSize } from '#lib/chart/design-size'
import { byBestFirst, type ChoiceRequest, choosePiece, type PieceChoice } from '#lib/cloth/choose-piece'
import { type ClothPiece, type Weave, weaves } from '#lib/cloth/cloth-piece'
import { type ClothRequest, compareFits, fitPiece, type PieceFit } from '#lib/cloth/fit'
import type { Margins } from '#lib/cloth/margins'
import { clothKindKey, isAdvisedCloth } from '#lib/cloth/match-cloth'
import { grouped } from '#lib/grouped'
import { compareExact } from '#lib/stock/batch'

export type ClothSettings = { margins: Margins; shrinkPercent: number; roundingUm: number }

/** Part of a design that the cloth answer hangs on. */
export type ClothDesign = Pick<Design, 'id' | 'size' | 'advised'>

/**
 * Over how many threads a design is worked on a weave: as the chart advises on the weave it names (or on any, when it names none); on
 * another weave one block, or two single threads.
 */
export function overOn(weave: Weave, advised: AdvisedCloth | null): 1 | 2 {
  if (advised && (advised.weave ?? weave) === weave) return advised.over
  return weave === 'block' ? 1 : 2
}

/** The number of threads a design may be worked over beside `overOn`: single threads take one and two, block cloth what it is woven for. */
export function otherOver(weave: Weave, advised: AdvisedCloth | null): 1 | 2 | null {
  if (weave === 'block') return null
  return overOn(weave, advised) === 2 ? 1 : 2
}

/** May the design be worked on this weave at all, whatever its count? A chart may insist on its own. */
export const isAllowedOn = (weave: Weave, advised: AdvisedCloth | null): boolean =>
  !(advised?.insists && advised.weave !== null && advised.weave !== weave)

/** Whether a piece is of the kind a design's chart advises; any is, where it advises none. */
export const isAdvisedFor = (piece: ClothPiece, advised: AdvisedCloth | null): boolean =>
  advised === null || isAdvisedCloth(piece, advised)

/** What a design of this size asks of cloth. */
export function requestOf(size: StitchSize, over: 1 | 2, settings: ClothSettings): ClothRequest {
  const { margins, shrinkPercent, roundingUm } = settings
  return { width: size.width, height: size.height, uncertaintyUm: size.uncertaintyUm, over, margins, shrinkPercent, roundingUm }
}

/** One kind of cloth on hand, and how its best piece takes the design. */
export type KindOnHand = {
  kind: string
  weave: Weave
  over: 1 | 2
  isAdvised: boolean
  pieceCount: number
  best: ClothPiece
  fit: PieceFit
}

export type ClothAnswer =
  | { kind: 'unknown-size' }
  | {
      kind: 'answer'
      size: StitchSize
      /** Among pieces of the advised kind, or among all when none is advised. */
      choice: PieceChoice
      /** Every kind of cloth on hand that the chart allows: the advised first, then by how well it fits, then by name of the kind. */
      kinds: KindOnHand[]
    }

/** Without advice, block cloth and single threads are worked over different numbers, so each weave is chosen from apart. */
function chooseAmong(
  size: StitchSize,
  advised: AdvisedCloth | null,
  pieces: readonly ClothPiece[],
  settings: ClothSettings,
): PieceChoice {
  if (advised) return choosePiece({ ...requestOf(size, advised.over, settings), buyCount: advised.count }, pieces)
  const ranked = weaves
    .flatMap((weave) => {
      const request: ChoiceRequest = { ...requestOf(size, overOn(weave, null), settings), buyCount: null }
      return choosePiece(
        request,
        pieces.filter((piece) => piece.weave === weave),
      ).ranked
    })
    .sort(byBestFirst)
  return { ranked, best: ranked[0]?.fit.kind === 'fits' ? ranked[0] : null, toBuy: null }
}

/** The answer with one piece chosen by hand, worked over so many threads: as it stands where the piece takes the design not even at smaller margins. */
export function withPieceChosen(answer: ClothAnswer, piece: ClothPiece, over: 1 | 2, settings: ClothSettings): ClothAnswer {
  if (answer.kind !== 'answer') return answer
  const choice = choosePiece({ ...requestOf(answer.size, over, settings), buyCount: null }, [piece])
  return choice.ranked.length > 0 ? { ...answer, choice } : answer
}

const usablePieces = (design: ClothDesign, pieces: readonly ClothPiece[]): ClothPiece[] =>
  pieces.filter((piece) => !piece.isReserved && isAllowedOn(piece.weave, design.advised))

/** Of pieces that are all too small, the one that lacks least, then by id. */
export function leastLacking(request: ClothRequest, pieces: Iterable<ClothPiece>): { piece: ClothPiece; fit: PieceFit } {
  let least: { piece: ClothPiece; fit: PieceFit } | null = null
  for (const piece of pieces) {
    const fit = fitPiece(request, piece)
    const order = least ? compareFits(fit, least.fit) || compareExact(piece.id, least.piece.id) : -1
    if (order < 0) least = { piece, fit }
  }
  if (!least) throw new RangeError('leastLacking: no pieces')
  return least
}

/** The advised kinds first, then by how well they fit, then by name. */
export const byKind = (a: KindOnHand, b: KindOnHand): number =>
  Number(b.isAdvised) - Number(a.isAdvised) || compareFits(a.fit, b.fit) || compareExact(a.kind, b.kind)

/**
 * The cloth answer of one design: which piece to cut, or at what smaller margins, or what to buy; and how it would come out on every
 * kind of cloth on hand. Reserved pieces are passed over. Asks every piece; `ClothAnswers` has the same ready for every design.
 */
export function clothAnswer(design: ClothDesign, pieces: readonly ClothPiece[], settings: ClothSettings): ClothAnswer {
  const size = stitchSize(design)
  if (size === null) return { kind: 'unknown-size' }
  const { advised } = design
  const usable = usablePieces(design, pieces)
  const kinds = [...grouped(usable, clothKindKey)].map(([kind, members]): KindOnHand => {
    const { weave } = members[0] as ClothPiece
    const over = overOn(weave, advised)
    const request = requestOf(size, over, settings)
    const { piece, fit } = choosePiece({ ...request, buyCount: null }, members).ranked[0] ?? leastLacking(request, members)
    const isAdvised = advised !== null && members.some((member) => isAdvisedFor(member, advised))
    return { kind, weave, over, isAdvised, pieceCount: members.length, best: piece, fit }
  })
  return {
    kind: 'answer',
    size,
    choice: chooseAmong(
      size,
      advised,
      usable.filter((piece) => isAdvisedFor(piece, advised)),
      settings,
    ),
    kinds: kinds.sort(byKind),
  }
}
