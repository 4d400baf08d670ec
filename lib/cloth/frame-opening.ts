import { UM_PER_INCH } from '#lib/quantity/cloth-length'
import { type Count, meanPerInch } from '#lib/quantity/count'
import type { ClothPiece, Weave } from './cloth-piece'
import { type CutSize, cutSize, type FinishedSize, finishedSize } from './finished-size'
import { type ClothRequest, compareFits, fitOneWay, type PieceFit, shrinkOf } from './fit'
import { type Framing, hiddenUm } from './framing'
import { type Margins, marginsAllRound } from './margins'
import { clothKindKey, nominalCountLabel } from './match-cloth'

type Size = { widthUm: number; heightUm: number }

/** The frame a finished piece takes, and the cloth for it. */
export type FrameSize = {
  /** What is seen in the frame: the stitches and plain cloth around. */
  opening: Size
  /** The board it is laced on, which reaches under the rabbet. */
  board: Size
  cut: CutSize
}

/** What frame a design of that finished size takes: 10 × 7 in with 0.75 in seen is an opening of 11.5 × 8.5 in. */
export function frameSizeOf(
  finished: Size,
  framing: Framing,
  settings: { shrinkPercent: number; roundingUm: number; uncertaintyUm: number },
): FrameSize {
  const widerBy = (um: number): Size => ({ widthUm: finished.widthUm + 2 * um, heightUm: finished.heightUm + 2 * um })
  return {
    opening: widerBy(framing.seenUm),
    board: widerBy(framing.seenUm + framing.rabbetUm),
    cut: cutSize({ ...settings, finished, margins: marginsAllRound(framing.seenUm + hiddenUm(framing)) }),
  }
}

export type OpeningQuestion = {
  /** In stitches. */
  width: number
  height: number
  /** Half the step an estimated size was ruled to, for the whole of a dimension. */
  uncertaintyUm: number
  /** What is seen in the frame, as it was measured: it may be hung either way. */
  opening: Size
  /** Plain cloth to be seen on each side, at least. */
  leastSeenUm: number
  framing: Framing
  shrinkPercent: number
  roundingUm: number
}

/** How a design goes into an opening on some cloth. */
export type OpeningWay = {
  /** `little-seen`: it goes in, with less plain cloth around than asked; `too-large`: stitches would be covered. */
  kind: 'fits' | 'little-seen' | 'too-large'
  /** The opening stands the other way up than it was given. */
  isOpeningTurned: boolean
  /** As it stands. */
  opening: Size
  /** The design's width runs along the warp. */
  isTurned: boolean
  finished: FinishedSize
  /** Plain cloth seen on each side, left and right, above and below; under nought, so much is covered. */
  seenAcrossUm: number
  seenUpUm: number
  cut: CutSize
}

const wayOrder = { fits: 0, 'little-seen': 1, 'too-large': 2 } as const
const leastSeen = ({ seenAcrossUm, seenUpUm }: OpeningWay): number => Math.min(seenAcrossUm, seenUpUm)
const toleranceUm = 1e-3

type Cloth = { ends: Count; picks: Count; over: 1 | 2; isTurned: boolean }

function openingWay(question: OpeningQuestion, cloth: Cloth, isOpeningTurned: boolean): OpeningWay {
  const { opening, framing, leastSeenUm, uncertaintyUm } = question
  const [widthUm, heightUm] = isOpeningTurned ? [opening.heightUm, opening.widthUm] : [opening.widthUm, opening.heightUm]
  const finished = finishedSize({ width: question.width, height: question.height, ...cloth })
  const seenAcrossUm = (widthUm - finished.widthUm) / 2
  const seenUpUm = (heightUm - finished.heightUm) / 2
  const surelySeenUm = Math.min(seenAcrossUm, seenUpUm) - uncertaintyUm / 2
  const kind = surelySeenUm < -toleranceUm ? 'too-large' : surelySeenUm < leastSeenUm - toleranceUm ? 'little-seen' : 'fits'
  // The cut follows from the opening, however large the design comes out in it.
  const cut = cutSize({
    finished: { widthUm, heightUm },
    margins: marginsAllRound(hiddenUm(framing)),
    shrinkPercent: question.shrinkPercent,
    roundingUm: question.roundingUm,
  })
  return {
    kind,
    isOpeningTurned,
    opening: { widthUm, heightUm },
    isTurned: cloth.isTurned,
    finished,
    seenAcrossUm,
    seenUpUm,
    cut,
  }
}

const compareWays = (a: OpeningWay, b: OpeningWay): number =>
  wayOrder[a.kind] - wayOrder[b.kind] || leastSeen(b) - leastSeen(a) || Number(a.isOpeningTurned) - Number(b.isOpeningTurned)

/** How a design goes into the opening on a cloth, the opening standing whichever way shows more around it. */
export function fitOpening(question: OpeningQuestion, cloth: Cloth): OpeningWay {
  const upright = openingWay(question, cloth, false)
  const turned = openingWay(question, cloth, true)
  return compareWays(turned, upright) < 0 ? turned : upright
}

/** A free piece that is large enough for the opening, or is but for some of what is turned back. */
export type OpeningPiece = {
  piece: ClothPiece
  way: OpeningWay
  fit: Exclude<PieceFit, { kind: 'too-small' }>
  /** Left to turn back on the narrowest side, whole; as asked, where it fits. */
  turnBackUm: number
  /** Left of the piece after the exact cut. */
  leftAreaUm2: number
}

/** One count of cloth, on hand or not, and what it does for the opening. */
export type OpeningCount = {
  weave: Weave
  ends: Count
  picks: Count
  over: 1 | 2
  /** 0 where there is none of it on hand. */
  pieceCount: number
  way: OpeningWay
  /** Best first; none where the design does not go in. */
  pieces: OpeningPiece[]
}

/**
 * Counts usually sold: of block cloth as a youth handbook on counted cross stitch lists them, of single threads those that handbooks
 * work their examples on.
 */
export const usualCounts: Readonly<Record<Weave, readonly number[]>> = {
  block: [7, 10, 11, 12, 14, 16, 18, 22],
  single: [20, 25, 28, 32, 36, 40],
}

/**
 * Which counts and pieces do for an opening: every count on hand, and the usual ones that are not. Single threads are asked over two and
 * over one, block cloth over what `blockOver` says. First what fits from a piece on hand, then on a count on hand, then what fits at
 * all; among these what leaves the least plain cloth. Reserved pieces are passed over.
 */
export function sizeForOpening(question: OpeningQuestion, pieces: readonly ClothPiece[], blockOver: 1 | 2 = 1): OpeningCount[] {
  const kinds = new Map<string, ClothPiece[]>()
  for (const piece of pieces) {
    if (piece.isReserved) continue
    kinds.set(clothKindKey(piece), [...(kinds.get(clothKindKey(piece)) ?? []), piece])
  }
  const overs = (weave: Weave): readonly (1 | 2)[] => (weave === 'block' ? [blockOver] : [2, 1])
  const onHand = [...kinds.values()].flatMap((members) =>
    overs((members[0] as ClothPiece).weave).map((over) => sizeKind(question, members, over)),
  )
  const notOnHand = (['block', 'single'] as const).flatMap((weave) =>
    usualCounts[weave].flatMap((perInch) => {
      const count = { threads: perInch, perUm: UM_PER_INCH }
      if (kinds.has(`${weave} ${nominalCountLabel(count, count)}`)) return []
      return overs(weave).map((over): OpeningCount => {
        const way = fitOpening(question, { ends: count, picks: count, over, isTurned: false })
        return { weave, ends: count, picks: count, over, pieceCount: 0, way, pieces: [] }
      })
    }),
  )
  const has = ({ pieces: found }: OpeningCount) => (found[0]?.fit.kind === 'fits' ? 0 : 1)
  const mostSeen = ({ way }: OpeningCount) => Math.max(way.seenAcrossUm, way.seenUpUm)
  return [...onHand, ...notOnHand].sort(
    (a, b) =>
      wayOrder[a.way.kind] - wayOrder[b.way.kind] ||
      has(a) - has(b) ||
      Number(a.pieceCount === 0) - Number(b.pieceCount === 0) ||
      (a.way.kind === 'too-large' ? leastSeen(b.way) - leastSeen(a.way) : mostSeen(a) - mostSeen(b)) ||
      meanPerInch(a.ends, a.picks) - meanPerInch(b.ends, b.picks) ||
      b.over - a.over,
  )
}

function sizeKind(question: OpeningQuestion, members: readonly ClothPiece[], over: 1 | 2): OpeningCount {
  const fitted = members.flatMap((piece) => fitPieceToOpening(question, piece, over) ?? [])
  fitted.sort(
    (a, b) =>
      wayOrder[a.way.kind] - wayOrder[b.way.kind] ||
      compareFits(a.fit, b.fit) ||
      Number(b.piece.isOffcut) - Number(a.piece.isOffcut) ||
      a.leftAreaUm2 - b.leftAreaUm2 ||
      (a.piece.id < b.piece.id ? -1 : 1),
  )
  const first = fitted[0]
  const piece = first?.piece ?? (members[0] as ClothPiece)
  const { weave, ends, picks } = piece
  const turns = piece.isTurnable ? [false, true] : [false]
  const ways = turns.map((isTurned) => fitOpening(question, { ends, picks, over, isTurned }))
  const way = first?.way ?? (ways.sort(compareWays)[0] as OpeningWay)
  return { weave, ends, picks, over, pieceCount: members.length, way, pieces: fitted }
}

/** The best way a piece takes the design in that opening; null when the design does not go in or the piece is too small. */
function fitPieceToOpening(question: OpeningQuestion, piece: ClothPiece, over: 1 | 2): OpeningPiece | null {
  const shrinkPercent = shrinkOf(piece, question.shrinkPercent)
  const found: OpeningPiece[] = []
  for (const isTurned of piece.isTurnable ? [false, true] : [false]) {
    for (const isOpeningTurned of [false, true]) {
      const way = openingWay(
        { ...question, shrinkPercent },
        { ends: piece.ends, picks: piece.picks, over, isTurned },
        isOpeningTurned,
      )
      if (way.kind === 'too-large') continue
      const margins = marginsOfWay(way, question.framing)
      const request: ClothRequest = {
        ...{ width: question.width, height: question.height, over, margins },
        ...{ shrinkPercent: question.shrinkPercent, roundingUm: question.roundingUm, uncertaintyUm: 0 },
      }
      const fit = fitOneWay(request, piece, isTurned)
      if (fit.kind === 'too-small') continue
      const turnBackUm = fit.kind === 'fits' ? question.framing.turnBackUm : turnBackLeft(margins, fit.margins, question.framing)
      if (turnBackUm < 0) continue
      const leftAreaUm2 = piece.widthUm * piece.heightUm - fit.cut.exactWidthUm * fit.cut.exactHeightUm
      found.push({ piece, way, fit, turnBackUm, leftAreaUm2 })
    }
  }
  found.sort((a, b) => wayOrder[a.way.kind] - wayOrder[b.way.kind] || compareFits(a.fit, b.fit) || compareWays(a.way, b.way))
  return found[0] ?? null
}

const marginsOfWay = ({ seenAcrossUm, seenUpUm }: OpeningWay, framing: Framing): Margins => {
  const hidden = hiddenUm(framing)
  const [across, up] = [Math.max(0, seenAcrossUm) + hidden, Math.max(0, seenUpUm) + hidden]
  return { leftUm: across, rightUm: across, topUm: up, bottomUm: up }
}

/** What is seen and what the rabbet and the board take stay as they are: all that a piece lacks is lacking behind the board. */
function turnBackLeft(asked: Margins, had: Margins, { turnBackUm }: Framing): number {
  const lacks = Math.max(...(['leftUm', 'rightUm', 'topUm', 'bottomUm'] as const).map((side) => asked[side] - had[side]))
  return Math.floor(turnBackUm - lacks + toleranceUm)
}
