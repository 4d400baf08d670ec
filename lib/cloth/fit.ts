import { UM_PER_INCH } from '#lib/quantity/cloth-length'
import type { ClothPiece } from './cloth-piece'
import { type CutSize, cutSize, type FinishedSize, finishedSize } from './finished-size'
import type { Margins } from './margins'

/** What a design asks of a piece of cloth. The piece brings its own count. */
export type ClothRequest = {
  /** In stitches. */
  width: number
  height: number
  over: 1 | 2
  margins: Margins
  /** Lost when the cloth is washed after it is cut; see `shrinkOf`. */
  shrinkPercent: number
  roundingUm: number
  /** Half the measuring step of a design known only by its size (see `estimateStitches`); 0 when the stitches are known. */
  uncertaintyUm: number
}

type Dimension = 'width' | 'height'

/** Enough of a piece to judge fit by. */
export type FitPiece = Pick<ClothPiece, 'ends' | 'picks' | 'widthUm' | 'heightUm' | 'isTurnable' | 'isSquared' | 'washState'>

/** Washed cloth has shrunk, and what is never washed will not: then nothing is allowed for it. */
export const shrinkOf = ({ washState }: Pick<ClothPiece, 'washState'>, shrinkPercent: number): number =>
  washState === 'washed' || washState === 'never' ? 0 : shrinkPercent

type FitWay = {
  /** The design's width lies along the warp (the piece's height). */
  isTurned: boolean
  finished: FinishedSize
  cut: CutSize
}

/** Widths and heights are the design's, not the piece's. */
export type PieceFit =
  | (FitWay & {
      kind: 'fits'
      /** Piece less exact cut, not whole, nought or more. */
      spareWidthUm: number
      spareHeightUm: number
      /** The rounded cut takes all of a side, or would not fit: cut the exact size. */
      nothingToSpare: boolean
      /** The size is nominal: square the piece before trusting this. */
      squareFirst: boolean
      /** Still fits after the usual loss in squaring; true for a squared piece. */
      fitsAfterSquaring: boolean
    })
  | (FitWay & {
      kind: 'smaller-margin'
      /** The design's dimension whose margins have to shrink: width, left and right; height, top and bottom. */
      dimension: Dimension | 'both'
      /** The narrowest margin there would be on those sides, whole, nought or more. */
      marginUm: number
      /** All four margins with which it would fit, whole. */
      margins: Margins
      squareFirst: boolean
    })
  | (FitWay & {
      kind: 'too-small'
      /** What the piece lacks even with no margin at all, whole; nought in a dimension that has room. */
      lackWidthUm: number
      lackHeightUm: number
    })

/** Lost from each side of a piece when its selvedge comes off and it is cut straight to a thread. Common practice, no published source. */
export const squaringLossUm = UM_PER_INCH / 4

/** A nanometre: sums of floats may miss by less. */
const toleranceUm = 1e-3

/** Two margins brought down, each in its share, to `roomUm` together; as they are when there is room. */
function shrunk(roomUm: number, [oneUm, otherUm]: [number, number]): [number, number] {
  const togetherUm = oneUm + otherUm
  if (roomUm >= togetherUm - toleranceUm) return [oneUm, otherUm]
  const share = roomUm / togetherUm
  return [Math.floor(oneUm * share + toleranceUm), Math.floor(otherUm * share + toleranceUm)]
}

/** Whether the request fits a piece laid one way, without asking if the piece may be turned. */
export function fitOneWay(request: ClothRequest, piece: FitPiece, isTurned: boolean): PieceFit {
  const { width, height, over, margins, uncertaintyUm } = request
  const finished = finishedSize({ width, height, ends: piece.ends, picks: piece.picks, over, isTurned })
  const shrinkPercent = shrinkOf(piece, request.shrinkPercent)
  const cut = cutSize({ ...request, finished, shrinkPercent })
  const way: FitWay = { isTurned, finished, cut }
  const [pieceWidthUm, pieceHeightUm] = isTurned ? [piece.heightUm, piece.widthUm] : [piece.widthUm, piece.heightUm]
  const spareWidthUm = pieceWidthUm - cut.exactWidthUm
  const spareHeightUm = pieceHeightUm - cut.exactHeightUm
  const isWide = spareWidthUm >= -toleranceUm
  const isHigh = spareHeightUm >= -toleranceUm
  const squareFirst = !piece.isSquared

  if (isWide && isHigh) {
    const leastSpareUm = Math.min(spareWidthUm, spareHeightUm)
    return {
      ...way,
      kind: 'fits',
      spareWidthUm: Math.max(0, spareWidthUm),
      spareHeightUm: Math.max(0, spareHeightUm),
      nothingToSpare: cut.widthUm >= pieceWidthUm || cut.heightUm >= pieceHeightUm || leastSpareUm <= toleranceUm,
      squareFirst,
      fitsAfterSquaring: piece.isSquared || leastSpareUm >= 2 * squaringLossUm - toleranceUm,
    }
  }

  const afterWashing = 1 - shrinkPercent / 100
  const roomAcrossUm = pieceWidthUm * afterWashing - finished.widthUm - uncertaintyUm
  const roomUpUm = pieceHeightUm * afterWashing - finished.heightUm - uncertaintyUm
  if (roomAcrossUm < -toleranceUm || roomUpUm < -toleranceUm) {
    const lack = (roomUm: number) => Math.max(0, Math.ceil(-roomUm / afterWashing - toleranceUm))
    return { ...way, kind: 'too-small', lackWidthUm: lack(roomAcrossUm), lackHeightUm: lack(roomUpUm) }
  }

  const [leftUm, rightUm] = shrunk(Math.max(0, roomAcrossUm), [margins.leftUm, margins.rightUm])
  const [topUm, bottomUm] = shrunk(Math.max(0, roomUpUm), [margins.topUm, margins.bottomUm])
  const narrowed = [...(isWide ? [] : [leftUm, rightUm]), ...(isHigh ? [] : [topUm, bottomUm])]
  return {
    ...way,
    kind: 'smaller-margin',
    dimension: isWide ? 'height' : isHigh ? 'width' : 'both',
    marginUm: Math.min(...narrowed),
    margins: { leftUm, rightUm, topUm, bottomUm },
    squareFirst,
  }
}

const kindOrder = { fits: 0, 'smaller-margin': 1, 'too-small': 2 } as const

/** Best first: fits, sooner if it will after squaring too; then the larger margin; then what lacks least. */
export function compareFits(a: PieceFit, b: PieceFit): number {
  if (a.kind === 'fits' && b.kind === 'fits') return Number(b.fitsAfterSquaring) - Number(a.fitsAfterSquaring)
  if (a.kind === 'smaller-margin' && b.kind === 'smaller-margin') return b.marginUm - a.marginUm
  if (a.kind === 'too-small' && b.kind === 'too-small') return a.lackWidthUm + a.lackHeightUm - (b.lackWidthUm + b.lackHeightUm)
  return kindOrder[a.kind] - kindOrder[b.kind]
}

const hasSomethingToSpare = (fit: PieceFit): boolean => fit.kind === 'fits' && !fit.nothingToSpare

/**
 * Whether a design fits a piece of cloth, upright or, where the piece may be turned, turned; the better way of the two, upright when
 * they are equal. Judged on the exact cut size against the piece as it stands.
 */
export function fitPiece(request: ClothRequest, piece: FitPiece): PieceFit {
  const upright = fitOneWay(request, piece, false)
  if (!piece.isTurnable) return upright
  const turned = fitOneWay(request, piece, true)
  const byFit = compareFits(turned, upright) || Number(hasSomethingToSpare(upright)) - Number(hasSomethingToSpare(turned))
  return byFit < 0 ? turned : upright
}
