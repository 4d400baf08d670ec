import type { AdvisedCloth, Design } from '#lib/chart/design'
import { type StitchSize, stitchSize } from '#lib/chart/design-size'
import { fitAfterSquaring } from '#lib/cloth/after-squaring'
import type { RankedPiece } from '#lib/cloth/choose-piece'
import type { ClothPiece, Weave } from '#lib/cloth/cloth-piece'
import { type Distortion, distortionOf } from '#lib/cloth/distortion'
import { type CutSize, cutSize, type FinishedSize, finishedSize } from '#lib/cloth/finished-size'
import { type ClothRequest, fitOneWay, fitPiece, type PieceFit, shrinkOf } from '#lib/cloth/fit'
import { listFinishings, type Margins, type MarginTable } from '#lib/cloth/margins'
import { isAdvisedCloth, nominalCountLabel } from '#lib/cloth/match-cloth'
import { type Motifs, requestInThreads, type SizeQuestion } from '#lib/cloth/motifs'
import { type CountOnHand, rankPieces, sizeOnEveryCount } from '#lib/cloth/on-every-count'
import { type Count, isSquareCount } from '#lib/quantity/count'
import { overOn } from './cloth-answer'

/** What a person may choose about a design's cloth. */
export type ClothChoices = {
  /** In force: those of the way of finishing, or their own. */
  margins: Margins
  /** Null follows the chart. */
  over: 1 | 2 | null
  motifs: Motifs
  /** A count to try, whether on hand or not. */
  count: { ends: Count; picks: Count; over: 1 | 2 | null } | null
  /** A piece to look at instead of the best. */
  pieceId: string | null
}

export type DesignClothSettings = MarginTable & { shrinkPercent: number; roundingUm: number }

/** One piece with everything said of it. */
export type ShownPiece = {
  piece: ClothPiece
  over: 1 | 2
  request: ClothRequest
  /** The better way round of those allowed. */
  fit: PieceFit
  /** Both ways, also where the piece may not be turned. */
  upright: PieceFit
  turned: PieceFit
  /** Of a nominal size, after the usual loss; null when it is squared. */
  afterSquaring: PieceFit | null
  distortion: Distortion | null
  isAdvised: boolean
}

export type CountAnswer = CountOnHand & {
  isAdvised: boolean
  /** The chart insists on another weave. */
  isAgainstAdvice: boolean
  /** It fits, but not upright. */
  isOnlyTurned: boolean
  afterSquaring: PieceFit | null
  distortion: Distortion | null
}

/** How the design comes out on a cloth that need not be on hand. */
export type TriedCount = {
  over: 1 | 2
  upright: { finished: FinishedSize; cut: CutSize }
  /** Where the count is not square. */
  turned: { finished: FinishedSize; cut: CutSize } | null
  /** Pieces of that count on hand that can be used, best first. */
  ranked: RankedPiece[]
  heldCount: number
}

export type SizedOn = { ends: Count; picks: Count; over: 1 | 2; isTurned: boolean; shrinkPercent: number }

export type DesignCloth = {
  size: StitchSize
  /** Pieces of the advised cloth (of any, when none is advised) that can be used, best first. */
  ranked: RankedPiece[]
  /** What to cut from bought cloth of the advised count when none fits as asked. */
  toBuy: CutSize | null
  counts: CountAnswer[]
  shown: ShownPiece | null
  tried: TriedCount[]
  /** The cloth the table of finishings is reckoned on: the piece shown, the count tried or the one advised. */
  sizedOn: SizedOn | null
  finishings: { name: string; isOwn: boolean; margins: Margins; cut: CutSize }[]
}

/** Over how many threads it is worked on a weave: over one as chosen on any cloth, over two as chosen on single threads only. */
export function chosenOver(weave: Weave, chosen: 1 | 2 | null, advised: AdvisedCloth | null): 1 | 2 {
  return chosen === 1 || (chosen === 2 && weave === 'single') ? chosen : overOn(weave, advised)
}

/**
 * Everything a design's cloth page says: how it comes out on every count on hand, which piece to cut, that piece both ways round and
 * after squaring, on a count tried, and what to cut for each way of finishing.
 *
 * @returns null when the design's size is not known
 */
export function answerDesignCloth(
  design: Pick<Design, 'size' | 'advised'>,
  pieces: readonly ClothPiece[],
  choices: ClothChoices,
  settings: DesignClothSettings,
): DesignCloth | null {
  const size = stitchSize(design)
  if (size === null) return null
  const { advised } = design
  const { shrinkPercent, roundingUm } = settings
  const question: SizeQuestion = {
    ...{ width: size.width, height: size.height, uncertaintyUm: size.uncertaintyUm },
    ...{ motifs: choices.motifs, margins: choices.margins, shrinkPercent, roundingUm },
  }
  const overFor = (weave: Weave) => chosenOver(weave, choices.over, advised)
  const isAgainstAdvice = (weave: Weave) => Boolean(advised?.insists && advised.weave !== null && advised.weave !== weave)
  const isAdvised = (piece: ClothPiece) => advised === null || isAdvisedCloth(piece, advised)
  const counts = sizeOnEveryCount(question, pieces, overFor).map(
    (count): CountAnswer => ({
      ...count,
      isAdvised:
        advised !== null &&
        pieces.some((piece) => isOfCount(piece, count.piece) && piece.weave === count.weave && isAdvised(piece)),
      isAgainstAdvice: isAgainstAdvice(count.weave),
      isOnlyTurned:
        count.fit.kind === 'fits' && count.fit.isTurned && fitOneWay(count.request, count.piece, false).kind !== 'fits',
      afterSquaring: fitAfterSquaring(count.request, count.piece),
      distortion: distortionOf(size, count.piece, count.over, count.fit.isTurned),
    }),
  )
  counts.sort((a, b) => Number(b.isAdvised) - Number(a.isAdvised) || Number(a.isAgainstAdvice) - Number(b.isAgainstAdvice))

  const ranked = rankPieces(question, pieces.filter(isAdvised), overFor)
  const chosen = pieces.find(({ id }) => id === choices.pieceId) ?? ranked[0]?.piece ?? null
  const shown = chosen && showPiece(question, size, chosen, overFor(chosen.weave), isAdvised(chosen))
  const advisedOver = advised && chosenOver(advised.weave ?? 'single', choices.over, advised)
  const toBuy =
    advised && advisedOver && ranked[0]?.fit.kind !== 'fits'
      ? sizeOn(question, { ends: advised.count, picks: advised.count }, advisedOver, false).cut
      : null
  const tried = choices.count ? tryCount(question, choices, choices.count, pieces) : []
  const sizedOn = whatIsSizedOn({ shown, choices, tried, advised, advisedOver, shrinkPercent })
  return {
    ...{ size, ranked, toBuy, counts, shown, tried, sizedOn },
    finishings: sizedOn ? finishingsOn(question, sizedOn, settings) : [],
  }
}

const isOfCount = (piece: ClothPiece, other: { ends: Count; picks: Count }): boolean =>
  nominalCountLabel(piece.ends, piece.picks) === nominalCountLabel(other.ends, other.picks)

function showPiece(question: SizeQuestion, size: StitchSize, piece: ClothPiece, over: 1 | 2, isAdvised: boolean): ShownPiece {
  const request = requestInThreads(question, over)
  const fit = fitPiece(request, piece)
  return {
    ...{ piece, over, request, fit, isAdvised },
    upright: fitOneWay(request, piece, false),
    turned: fitOneWay(request, piece, true),
    afterSquaring: fitAfterSquaring(request, piece),
    distortion: distortionOf(size, piece, over, fit.isTurned),
  }
}

function sizeOn(question: SizeQuestion, { ends, picks }: { ends: Count; picks: Count }, over: 1 | 2, isTurned: boolean) {
  const request = requestInThreads(question, over)
  const finished = finishedSize({ ...request, ends, picks, isTurned })
  return { finished, cut: cutSize({ ...request, finished }) }
}

function tryCount(
  question: SizeQuestion,
  choices: ClothChoices,
  count: { ends: Count; picks: Count; over: 1 | 2 | null },
  pieces: readonly ClothPiece[],
): TriedCount[] {
  const { ends, picks } = count
  const over = count.over ?? choices.over
  const held = pieces.filter((piece) => isOfCount(piece, count))
  const overs: (1 | 2)[] = over === null ? [2, 1] : [over]
  return overs.map((each) => ({
    over: each,
    upright: sizeOn(question, { ends, picks }, each, false),
    turned: isSquareCount(ends, picks) ? null : sizeOn(question, { ends, picks }, each, true),
    ranked: rankPieces(question, held, () => each),
    heldCount: held.length,
  }))
}

function whatIsSizedOn(known: {
  shown: ShownPiece | null
  choices: ClothChoices
  tried: readonly TriedCount[]
  advised: AdvisedCloth | null
  advisedOver: 1 | 2 | null
  shrinkPercent: number
}): SizedOn | null {
  const { shown, choices, tried, advised, advisedOver, shrinkPercent } = known
  if (choices.count && tried[0]) {
    const { ends, picks } = choices.count
    return { ends, picks, over: tried[0].over, isTurned: false, shrinkPercent }
  }
  if (shown) {
    const { ends, picks } = shown.piece
    return { ends, picks, over: shown.over, isTurned: shown.fit.isTurned, shrinkPercent: shrinkOf(shown.piece, shrinkPercent) }
  }
  if (!advised || !advisedOver) return null
  return { ends: advised.count, picks: advised.count, over: advisedOver, isTurned: false, shrinkPercent }
}

/** What to cut for every way of finishing, with the margins of each. */
function finishingsOn(question: SizeQuestion, on: SizedOn, settings: DesignClothSettings): DesignCloth['finishings'] {
  return listFinishings(settings).map(({ name, isOwn, margins }) => {
    const { cut } = sizeOn({ ...question, margins, shrinkPercent: on.shrinkPercent }, on, on.over, on.isTurned)
    return { name, isOwn, margins, cut }
  })
}
