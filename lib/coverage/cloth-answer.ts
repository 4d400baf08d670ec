import type { ClothColumns } from '#lib/chart/catalogue'
import { withRoom } from '#lib/chart/columns'
import type { AdvisedCloth, Design } from '#lib/chart/design'
import { type StitchSize, stitchSize } from '#lib/chart/design-size'
import { type ChoiceRequest, choosePiece, type PieceChoice } from '#lib/cloth/choose-piece'
import { type ClothPiece, type Weave, weaves } from '#lib/cloth/cloth-piece'
import { type ClothRequest, compareFits, fitPiece, type PieceFit } from '#lib/cloth/fit'
import type { Margins } from '#lib/cloth/margins'
import { clothKindKey, isAdvisedCloth } from '#lib/cloth/match-cloth'
import { pitchUm } from '#lib/quantity/count'
import { compareExact } from '#lib/stock/batch'

export type ClothSettings = { margins: Margins; shrinkPercent: number; roundingUm: number }

/** Part of a design that the cloth answer hangs on. */
export type ClothDesign = Pick<Design, 'id' | 'size' | 'advised'>

/** How well the best piece of the advised kind takes a design: 0 none, 1 with smaller margins, 2 as asked. Also 0 when no size is known. */
export const clothFits = { none: 0, smallerMargin: 1, fits: 2 } as const

/**
 * Over how many threads a design is worked on a weave: as the chart advises on the weave it names (or on any, when it names none); on
 * another weave one block, or two single threads.
 */
export function overOn(weave: Weave, advised: AdvisedCloth | null): 1 | 2 {
  if (advised && (advised.weave ?? weave) === weave) return advised.over
  return weave === 'block' ? 1 : 2
}

/** May the design be worked on this cloth at all, whatever its count? A chart may insist on its weave. */
const isAllowed = (piece: Pick<ClothPiece, 'weave'>, advised: AdvisedCloth | null): boolean =>
  !(advised?.insists && advised.weave !== null && advised.weave !== piece.weave)

const isAdvised = (piece: ClothPiece, advised: AdvisedCloth | null): boolean => advised === null || isAdvisedCloth(piece, advised)

function requestOf(size: StitchSize, over: 1 | 2, settings: ClothSettings): ClothRequest {
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

/** As `choosePiece` has it: a tight fit is no reason to cut a larger piece. */
const withRoomToSpare = (fit: PieceFit): PieceFit => (fit.kind === 'fits' ? { ...fit, nothingToSpare: false } : fit)

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
    .sort(
      (a, b) =>
        compareFits(withRoomToSpare(a.fit), withRoomToSpare(b.fit)) ||
        Number(b.piece.isOffcut) - Number(a.piece.isOffcut) ||
        a.leftAreaUm2 - b.leftAreaUm2 ||
        compareExact(a.piece.id, b.piece.id),
    )
  return { ranked, best: ranked[0]?.fit.kind === 'fits' ? ranked[0] : null, toBuy: null }
}

const usablePieces = (design: ClothDesign, pieces: readonly ClothPiece[]): ClothPiece[] =>
  pieces.filter((piece) => !piece.isReserved && isAllowed(piece, design.advised))

/**
 * The cloth answer of one design: which piece to cut, or at what smaller margins, or what to buy; and how it would come out on every
 * kind of cloth on hand. Reserved pieces are passed over.
 */
export function clothAnswer(design: ClothDesign, pieces: readonly ClothPiece[], settings: ClothSettings): ClothAnswer {
  const size = stitchSize(design)
  if (size === null) return { kind: 'unknown-size' }
  const { advised } = design
  const usable = usablePieces(design, pieces).sort((a, b) => compareExact(a.id, b.id))
  const kinds = new Map<string, KindOnHand>()
  for (const piece of usable) {
    const kind = clothKindKey(piece)
    const over = overOn(piece.weave, advised)
    const fit = fitPiece(requestOf(size, over, settings), piece)
    const known = kinds.get(kind)
    const isAdvisedKind = advised !== null && (known?.isAdvised || isAdvised(piece, advised))
    const isBetter = !known || compareFits(fit, known.fit) < 0
    kinds.set(kind, {
      kind,
      weave: piece.weave,
      over,
      isAdvised: isAdvisedKind,
      pieceCount: (known?.pieceCount ?? 0) + 1,
      best: isBetter ? piece : known.best,
      fit: isBetter ? fit : known.fit,
    })
  }
  return {
    kind: 'answer',
    size,
    choice: chooseAmong(
      size,
      advised,
      usable.filter((piece) => isAdvised(piece, advised)),
      settings,
    ),
    kinds: [...kinds.values()].sort(
      (a, b) => Number(b.isAdvised) - Number(a.isAdvised) || compareFits(a.fit, b.fit) || compareExact(a.kind, b.kind),
    ),
  }
}

/** Pieces of the same weave, counts and turnability. Only sizes that no other of them outdoes both ways: widths rise, heights fall. */
type ClothGroup = {
  kind: number
  weave: Weave
  isTurnable: boolean
  /** Pitches over 1 and over 2, at index over. */
  endsPitchUm: readonly number[]
  picksPitchUm: readonly number[]
  widthsUm: number[]
  heightsUm: number[]
}

function groupPieces(pieces: readonly ClothPiece[], kindIndex: ReadonlyMap<string, number>): ClothGroup[] {
  const groups = new Map<string, { group: ClothGroup; sizes: [number, number][] }>()
  for (const piece of pieces) {
    const { weave, ends, picks, isTurnable } = piece
    const key = [weave, ends.threads, ends.perUm, picks.threads, picks.perUm, isTurnable].join(' ')
    let known = groups.get(key)
    if (!known) {
      const group: ClothGroup = {
        kind: kindIndex.get(clothKindKey(piece)) as number,
        weave,
        isTurnable,
        endsPitchUm: [0, pitchUm(ends, 1), pitchUm(ends, 2)],
        picksPitchUm: [0, pitchUm(picks, 1), pitchUm(picks, 2)],
        widthsUm: [],
        heightsUm: [],
      }
      known = { group, sizes: [] }
      groups.set(key, known)
    }
    known.sizes.push([piece.widthUm, piece.heightUm])
  }
  for (const { group, sizes } of groups.values()) {
    sizes.sort((a, b) => b[0] - a[0] || b[1] - a[1])
    for (const [widthUm, heightUm] of sizes) {
      if (group.heightsUm.length > 0 && heightUm <= (group.heightsUm[0] as number)) continue
      group.widthsUm.unshift(widthUm)
      group.heightsUm.unshift(heightUm)
    }
  }
  return [...groups.values()].map(({ group }) => group)
}

/** As in `fitOneWay`, whose arithmetic this repeats on bare numbers, since it runs for every design on every group. */
const toleranceUm = 1e-3

function fitInGroup(size: StitchSize, over: 1 | 2, group: ClothGroup, settings: ClothSettings): number {
  const { margins } = settings
  const afterWashing = 1 - settings.shrinkPercent / 100
  let best: number = clothFits.none
  for (let turn = 0; turn < (group.isTurnable ? 2 : 1); turn++) {
    const acrossUm = (turn === 0 ? group.endsPitchUm : group.picksPitchUm)[over] as number
    const upUm = (turn === 0 ? group.picksPitchUm : group.endsPitchUm)[over] as number
    const finishedWidthUm = size.width * acrossUm
    const finishedHeightUm = size.height * upUm
    const cutWidthUm = (finishedWidthUm + size.uncertaintyUm + margins.leftUm + margins.rightUm) / afterWashing
    const cutHeightUm = (finishedHeightUm + size.uncertaintyUm + margins.topUm + margins.bottomUm) / afterWashing
    const along = turn === 0 ? group.widthsUm : group.heightsUm
    const upward = turn === 0 ? group.heightsUm : group.widthsUm
    for (let i = 0; i < along.length; i++) {
      const [widthUm, heightUm] = [along[i] as number, upward[i] as number]
      if (widthUm - cutWidthUm >= -toleranceUm && heightUm - cutHeightUm >= -toleranceUm) return clothFits.fits
      const roomAcrossUm = widthUm * afterWashing - finishedWidthUm - size.uncertaintyUm
      const roomUpUm = heightUm * afterWashing - finishedHeightUm - size.uncertaintyUm
      if (roomAcrossUm >= -toleranceUm && roomUpUm >= -toleranceUm) best = clothFits.smallerMargin
    }
  }
  return best
}

/** Among pieces of one shape, `chooseAmong` breaks ties by offcut, then label (where a cloth is advised), then id. */
function firstOfEachShape(pieces: readonly ClothPiece[], isByLabel: boolean): ClothPiece[] {
  const first = new Map<string, ClothPiece>()
  const isBefore = (a: ClothPiece, b: ClothPiece) =>
    (Number(b.isOffcut) - Number(a.isOffcut) ||
      (isByLabel ? compareExact(a.label ?? '', b.label ?? '') : 0) ||
      compareExact(a.id, b.id)) < 0
  for (const piece of pieces) {
    const { weave, ends, picks, widthUm, heightUm, isTurnable, isSquared } = piece
    const shape = [weave, ends.threads, ends.perUm, picks.threads, picks.perUm, widthUm, heightUm, isTurnable, isSquared].join(
      ' ',
    )
    const known = first.get(shape)
    if (!known || isBefore(piece, known)) first.set(shape, piece)
  }
  return [...first.values()]
}

const adviceKey = (advised: AdvisedCloth | null): string =>
  advised === null
    ? ''
    : JSON.stringify([advised.count.threads, advised.count.perUm, advised.weave, advised.insists && [advised.name]])

/**
 * The cloth answer of every design in columns: how the best piece of the advised kind takes it, and on which kinds of cloth on hand it
 * fits as asked. Pieces are grouped by weave, counts and turnability, and only sizes that no other of the group outdoes both ways are
 * asked, which changes no answer. A change of cloth or settings answers every design again.
 */
export class ClothAnswers {
  #settings: ClothSettings
  #pieces: ClothPiece[] = []
  #kinds: string[] = []
  #kindIndex = new Map<string, number>()
  #all: ClothGroup[] = []
  #advised = new Map<string, ClothGroup[]>()
  #candidates = new Map<string, ClothPiece[]>()
  #designs: (ClothDesign | null)[] = []
  #rows = new Map<string, number>()
  #fit = new Uint8Array(64)
  #bits = new Uint32Array(64)
  #wordCount = 1
  #layout: object = {}

  constructor(designs: Iterable<ClothDesign>, pieces: readonly ClothPiece[], settings: ClothSettings) {
    this.#settings = settings
    for (const design of designs) this.#putDesign(design)
    this.setPieces(pieces)
  }

  /** Take over the pieces on hand (reserved ones are passed over) and, when given, other settings. */
  setPieces(pieces: readonly ClothPiece[], settings: ClothSettings = this.#settings): void {
    this.#settings = settings
    this.#pieces = pieces.filter((piece) => !piece.isReserved)
    this.#kinds = [...new Set(this.#pieces.map(clothKindKey))].sort(compareExact)
    this.#kindIndex = new Map(this.#kinds.map((kind, index) => [kind, index]))
    this.#wordCount = Math.max(1, Math.ceil(this.#kinds.length / 32))
    this.#all = groupPieces(this.#pieces, this.#kindIndex)
    this.#advised.clear()
    this.#candidates.clear()
    this.#layout = {}
    for (let row = 0; row < this.#designs.length; row++) this.#answer(row)
  }

  /** Add a design, or take over its changed size or advice. */
  setDesign(design: ClothDesign): void {
    this.#answer(this.#putDesign(design))
  }

  removeDesign(designId: string): void {
    const row = this.#rows.get(designId)
    if (row === undefined) return
    this.#rows.delete(designId)
    this.#designs[row] = null
    this.#layout = {}
  }

  /**
   * Which piece to cut for a design, or what to buy, as `clothAnswer` has it; but of pieces alike in all that fit is judged by, only
   * the one that would be taken is ranked. Null when the size is not known, or the design.
   */
  choiceFor(designId: string): PieceChoice | null {
    const design = this.#designs[this.#rows.get(designId) ?? -1]
    const size = design ? stitchSize(design) : null
    if (!design || !size) return null
    return chooseAmong(size, design.advised, this.#candidatesFor(design.advised), this.#settings)
  }

  get columns(): ClothColumns {
    return {
      layout: this.#layout,
      rowOf: (designId) => this.#rows.get(designId) ?? -1,
      fit: this.#fit,
      kinds: this.#kinds,
      wordCount: this.#wordCount,
      bits: this.#bits,
    }
  }

  #putDesign(design: ClothDesign): number {
    const known = this.#rows.get(design.id)
    if (known !== undefined) {
      this.#designs[known] = design
      return known
    }
    const row = this.#designs.length
    this.#designs.push(design)
    this.#rows.set(design.id, row)
    this.#layout = {}
    return row
  }

  #groupsAdvisedBy(advised: AdvisedCloth | null): ClothGroup[] {
    const key = adviceKey(advised)
    let groups = this.#advised.get(key)
    if (!groups) {
      const pieces = this.#pieces.filter((piece) => isAllowed(piece, advised) && isAdvised(piece, advised))
      groups = groupPieces(pieces, this.#kindIndex)
      this.#advised.set(key, groups)
    }
    return groups
  }

  #candidatesFor(advised: AdvisedCloth | null): ClothPiece[] {
    const key = adviceKey(advised)
    let candidates = this.#candidates.get(key)
    if (!candidates) {
      const pieces = this.#pieces.filter((piece) => isAllowed(piece, advised) && isAdvised(piece, advised))
      candidates = firstOfEachShape(pieces, advised !== null)
      this.#candidates.set(key, candidates)
    }
    return candidates
  }

  #answer(row: number): void {
    this.#fit = withRoom(this.#fit, row + 1)
    this.#bits = withRoom(this.#bits, (row + 1) * this.#wordCount)
    const firstWord = row * this.#wordCount
    this.#fit[row] = clothFits.none
    this.#bits.fill(0, firstWord, firstWord + this.#wordCount)
    const design = this.#designs[row]
    const size = design ? stitchSize(design) : null
    if (!design || !size) return
    const { advised } = design
    let best: number = clothFits.none
    for (const group of this.#groupsAdvisedBy(advised)) {
      best = Math.max(best, fitInGroup(size, overOn(group.weave, advised), group, this.#settings))
      if (best === clothFits.fits) break
    }
    this.#fit[row] = best
    for (const group of this.#all) {
      const word = firstWord + (group.kind >>> 5)
      const bit = 1 << (group.kind & 31)
      if (((this.#bits[word] as number) & bit) !== 0 || !isAllowed(group, advised)) continue
      const over = overOn(group.weave, advised)
      if (fitInGroup(size, over, group, this.#settings) === clothFits.fits) this.#bits[word] = (this.#bits[word] as number) | bit
    }
  }
}
