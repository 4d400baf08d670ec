import { stitchSize } from '#lib/chart/design-size'
import type { ClothPiece, Weave } from '#lib/cloth/cloth-piece'
import { shrinkOf, squaringLossUm } from '#lib/cloth/fit'
import { clothKindKey } from '#lib/cloth/match-cloth'
import { type ClothDesign, type ClothSettings, isAllowedOn, otherOver, overOn } from '#lib/coverage/cloth-answer'
import { pitchUm } from '#lib/quantity/count'

/** A piece with what the loop would otherwise look up again for every design. */
type Figures = {
  piece: ClothPiece
  kind: number
  weave: Weave
  /** Over one and over two. */
  endsUm: readonly [number, number]
  picksUm: readonly [number, number]
  widthUm: number
  heightUm: number
  areaUm2: number
  afterWashing: number
  isTurnable: boolean
  isSquared: boolean
  isOffcut: boolean
}

/** 0 it fits and will once squared, 1 it fits, 2 at smaller margins, 3 not at all. */
const none = 3
const toleranceUm = 1e-3

/**
 * Every piece asked for every design, over each number of threads its weave allows, each way round that it may lie: the arithmetic of
 * `fitOneWay` and the order of `choosePiece` written out on bare numbers, with nothing made inside the loops. For each design, kind and
 * over it keeps how many pieces fit, how many more at smaller margins, and the best.
 */
export class PlainClothLoop {
  readonly kinds: readonly string[]
  readonly #designs: readonly ClothDesign[]
  readonly #figures: readonly Figures[]
  readonly #settings: ClothSettings
  readonly #fits: Uint16Array
  readonly #near: Uint16Array
  readonly #best: Int32Array
  /** Of the way judged last: what is left of the piece, and the margin there would be. */
  readonly #left = new Float64Array(1)
  readonly #margin = new Float64Array(1)

  constructor(designs: readonly ClothDesign[], pieces: readonly ClothPiece[], settings: ClothSettings) {
    const free = pieces.filter(({ isReserved }) => !isReserved)
    this.#designs = designs
    this.#settings = settings
    this.kinds = [...new Set(free.map(clothKindKey))].sort()
    const kindIndex = new Map(this.kinds.map((kind, index) => [kind, index]))
    this.#figures = free.map(
      (piece): Figures => ({
        piece,
        kind: kindIndex.get(clothKindKey(piece)) as number,
        weave: piece.weave,
        endsUm: [pitchUm(piece.ends, 1), pitchUm(piece.ends, 2)],
        picksUm: [pitchUm(piece.picks, 1), pitchUm(piece.picks, 2)],
        widthUm: piece.widthUm,
        heightUm: piece.heightUm,
        areaUm2: piece.widthUm * piece.heightUm,
        afterWashing: 1 - shrinkOf(piece, settings.shrinkPercent) / 100,
        isTurnable: piece.isTurnable,
        isSquared: piece.isSquared,
        isOffcut: piece.isOffcut,
      }),
    )
    const cells = designs.length * this.kinds.length * 2
    this.#fits = new Uint16Array(cells)
    this.#near = new Uint16Array(cells)
    this.#best = new Int32Array(cells)
  }

  /** @param slot  0 over the usual number of threads, 1 over the other */
  answerOf(row: number, kind: string, slot: number): { fitCount: number; nearCount: number; bestId: string | null } {
    const cell = (row * this.kinds.length + this.kinds.indexOf(kind)) * 2 + slot
    const best = this.#best[cell] as number
    return {
      fitCount: this.#fits[cell] as number,
      nearCount: this.#near[cell] as number,
      bestId: best < 0 ? null : (this.#figures[best] as Figures).piece.id,
    }
  }

  answerAll(): void {
    const fits = this.#fits.fill(0)
    const near = this.#near.fill(0)
    const best = this.#best.fill(-1)
    const [left, margin, figures] = [this.#left, this.#margin, this.#figures]
    const perDesign = this.kinds.length * 2
    const bestTier = new Uint8Array(perDesign)
    const bestLeftUm2 = new Float64Array(perDesign)
    const bestMarginUm = new Float64Array(perDesign)
    for (let row = 0; row < this.#designs.length; row++) {
      const design = this.#designs[row] as ClothDesign
      const size = stitchSize(design)
      if (!size) continue
      const { width, height, uncertaintyUm } = size
      bestTier.fill(none)
      const single = isAllowedOn('single', design.advised)
      const block = isAllowedOn('block', design.advised)
      const singleOver = overOn('single', design.advised)
      const blockOver = overOn('block', design.advised)
      const singleOther = otherOver('single', design.advised) ?? 0
      for (let at = 0; at < figures.length; at++) {
        const figure = figures[at] as Figures
        const isSingle = figure.weave === 'single'
        if (!(isSingle ? single : block)) continue
        for (let slot = 0; slot < 2; slot++) {
          const over = slot === 0 ? (isSingle ? singleOver : blockOver) : isSingle ? singleOther : 0
          if (over === 0) continue
          const endsUm = figure.endsUm[over - 1] as number
          const picksUm = figure.picksUm[over - 1] as number
          let tier = this.#judge(figure, endsUm, picksUm, figure.widthUm, figure.heightUm, width, height, uncertaintyUm)
          let leftUm2 = left[0] as number
          let marginUm = margin[0] as number
          if (figure.isTurnable) {
            const turned = this.#judge(figure, picksUm, endsUm, figure.heightUm, figure.widthUm, width, height, uncertaintyUm)
            if (turned < tier || (turned === 2 && tier === 2 && (margin[0] as number) > marginUm)) {
              tier = turned
              leftUm2 = left[0] as number
              marginUm = margin[0] as number
            }
          }
          if (tier === none) continue
          const local = figure.kind * 2 + slot
          const cell = row * perDesign + local
          if (tier === 2) near[cell] = (near[cell] as number) + 1
          else fits[cell] = (fits[cell] as number) + 1
          const knownTier = bestTier[local] as number
          if (tier > knownTier) continue
          if (tier === knownTier) {
            const known = figures[best[cell] as number] as Figures
            const order =
              (tier === 2 ? (bestMarginUm[local] as number) - marginUm : 0) ||
              Number(known.isOffcut) - Number(figure.isOffcut) ||
              leftUm2 - (bestLeftUm2[local] as number)
            if (order > 0 || (order === 0 && isNamedBefore(known.piece, figure.piece))) continue
          }
          best[cell] = at
          bestTier[local] = tier
          bestLeftUm2[local] = leftUm2
          bestMarginUm[local] = marginUm
        }
      }
    }
  }

  /** One piece, one design, one way round. The rule that prefers a tight way no more than a loose one never decides on the pieces here. */
  #judge(
    figure: Figures,
    acrossUm: number,
    upUm: number,
    sideUm: number,
    upSideUm: number,
    width: number,
    height: number,
    uncertaintyUm: number,
  ): number {
    const { leftUm, rightUm, topUm, bottomUm } = this.#settings.margins
    const { afterWashing } = figure
    const finishedWidthUm = width * acrossUm
    const finishedHeightUm = height * upUm
    const cutWidthUm = (finishedWidthUm + uncertaintyUm + leftUm + rightUm) / afterWashing
    const cutHeightUm = (finishedHeightUm + uncertaintyUm + topUm + bottomUm) / afterWashing
    const spareWidthUm = sideUm - cutWidthUm
    const spareHeightUm = upSideUm - cutHeightUm
    const isWide = spareWidthUm >= -toleranceUm
    const isHigh = spareHeightUm >= -toleranceUm
    if (isWide && isHigh) {
      this.#left[0] = figure.areaUm2 - cutWidthUm * cutHeightUm
      return figure.isSquared || Math.min(spareWidthUm, spareHeightUm) >= 2 * squaringLossUm - toleranceUm ? 0 : 1
    }
    const roomAcrossUm = sideUm * afterWashing - finishedWidthUm - uncertaintyUm
    const roomUpUm = upSideUm * afterWashing - finishedHeightUm - uncertaintyUm
    if (roomAcrossUm < -toleranceUm || roomUpUm < -toleranceUm) return none
    const across = isWide ? Number.POSITIVE_INFINITY : narrowed(roomAcrossUm, leftUm, rightUm)
    const up = isHigh ? Number.POSITIVE_INFINITY : narrowed(roomUpUm, topUm, bottomUm)
    this.#left[0] = figure.areaUm2 - cutWidthUm * cutHeightUm
    this.#margin[0] = Math.min(across, up)
    return 2
  }
}

function narrowed(roomUm: number, oneUm: number, otherUm: number): number {
  const togetherUm = oneUm + otherUm
  const leastUm = Math.min(oneUm, otherUm)
  if (roomUm >= togetherUm - toleranceUm) return leastUm
  return Math.floor(leastUm * (Math.max(0, roomUm) / togetherUm) + toleranceUm)
}

const isNamedBefore = (a: ClothPiece, b: ClothPiece): boolean => {
  const [one, other] = [a.label ?? '', b.label ?? '']
  return one < other || (one === other && a.id < b.id)
}
