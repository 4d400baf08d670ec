import { withRoom } from '#lib/chart/with-room'
import type { ClothPiece } from '#lib/cloth/cloth-piece'
import { shrinkOf } from '#lib/cloth/fit'
import { roundUpUm } from '#lib/quantity/cloth-length'
import { pitchUm } from '#lib/quantity/count'
import { compareExact } from '#lib/stock/batch'
import { type ClothSettings, overOn } from './cloth-answer'
import type { AskedOver } from './design-rows'
import { isUnder, limitKinds, limitStride, writeStitchLimits } from './stitch-limits'

/** The pieces for one question, by slot: their limits in stitches (see `limitStride`) and their pitches over so many threads. */
export type LimitSet = {
  over: AskedOver
  uncertaintyUm: number
  limits: Int32Array
  endsUm: Float64Array
  picksUm: Float64Array
  /** Of all pitches of these pieces and of those that were there before. */
  leastPitchUm: number
  mostPitchUm: number
}

/** How well a piece takes a design, the better the lower: as `compareFits` has it, but for the margin. */
export const tiers = { fitsSquared: 0, fits: 1, near: 2, none: 3 } as const

/** As in `fitOneWay`, whose arithmetic is repeated here on bare numbers. */
const toleranceUm = 1e-3

/** Pieces by slot, and how each takes a design: what `fitPiece` and `choosePiece` would say, without making anything of it. */
export class PieceJudge {
  readonly #settings: ClothSettings
  readonly #pieces: (ClothPiece | null)[] = []
  #areaUm2 = new Float64Array(16)
  #afterWashing = new Float64Array(16)
  readonly #sets: LimitSet[] = []
  #leastAfterWashing = 1
  #mostAfterWashing = 0
  /** Of the piece judged last: what the exact cut leaves of it and, where it takes the design only so, at what margin. */
  leftUm2 = 0
  marginUm = 0

  constructor(settings: ClothSettings) {
    this.#settings = settings
  }

  pieceAt(slot: number): ClothPiece {
    const piece = this.#pieces[slot]
    if (!piece) throw new RangeError(`PieceJudge: no piece at ${slot}`)
    return piece
  }

  areaUm2(slot: number): number {
    return this.#areaUm2[slot] as number
  }

  set(slot: number, piece: ClothPiece): void {
    this.#pieces[slot] = piece
    this.#areaUm2 = withRoom(this.#areaUm2, slot + 1)
    this.#afterWashing = withRoom(this.#afterWashing, slot + 1)
    this.#areaUm2[slot] = piece.widthUm * piece.heightUm
    this.#afterWashing[slot] = 1 - shrinkOf(piece, this.#settings.shrinkPercent) / 100
    this.#leastAfterWashing = Math.min(this.#leastAfterWashing, this.#afterWashing[slot] as number)
    this.#mostAfterWashing = Math.max(this.#mostAfterWashing, this.#afterWashing[slot] as number)
    for (const set of this.#sets) this.#measure(set, slot, piece)
  }

  clear(slot: number): void {
    this.#pieces[slot] = null
  }

  setOf(over: AskedOver, uncertaintyUm: number): LimitSet {
    const known = this.#sets.find((set) => set.over === over && set.uncertaintyUm === uncertaintyUm)
    if (known) return known
    // Written out: an object put together from parts is slow to read from, and this one is read for every design.
    const set: LimitSet = {
      over,
      uncertaintyUm,
      limits: new Int32Array(0),
      endsUm: new Float64Array(0),
      picksUm: new Float64Array(0),
      leastPitchUm: Number.POSITIVE_INFINITY,
      mostPitchUm: 0,
    }
    this.#pieces.forEach((piece, slot) => {
      if (piece) this.#measure(set, slot, piece)
    })
    this.#sets.push(set)
    return set
  }

  /**
   * How well a piece takes a design, the better way round; see `leftUm2` and `marginUm`. Of two ways that fit alike it is upright, unless
   * there is nothing to spare upright and something turned.
   */
  judge(set: LimitSet, slot: number, width: number, height: number): number {
    const { limits } = set
    const at = slot * limitStride
    const upright = isUnder(limits, at + limitKinds.asked, width, height)
    const turned = isUnder(limits, at + limitKinds.asked + 2, width, height)
    if (upright || turned) {
      const uprightSquared = upright && isUnder(limits, at + limitKinds.squared, width, height)
      const turnedSquared = turned && isUnder(limits, at + limitKinds.squared + 2, width, height)
      const isEqual = turnedSquared === uprightSquared
      const isTurned = turned && (!upright || (isEqual ? this.#hasRoomTurnedOnly(set, slot, width, height) : turnedSquared))
      this.leftUm2 = this.#leftOf(set, slot, isTurned, width, height)
      return uprightSquared || turnedSquared ? tiers.fitsSquared : tiers.fits
    }
    const isNearUpright = isUnder(limits, at + limitKinds.bare, width, height)
    const isNearTurned = isUnder(limits, at + limitKinds.bare + 2, width, height)
    const uprightUm = isNearUpright ? this.#marginOf(set, slot, false, width, height) : -1
    const turnedUm = isNearTurned ? this.#marginOf(set, slot, true, width, height) : -1
    if (uprightUm < 0 && turnedUm < 0) return tiers.none
    this.marginUm = Math.max(uprightUm, turnedUm)
    this.leftUm2 = this.#leftOf(set, slot, turnedUm > uprightUm, width, height)
    return tiers.near
  }

  /** Whether the one takes the design better than the other, which takes it too: as `choosePiece` orders them. */
  isBetter(set: LimitSet, slot: number, other: number, width: number, height: number): boolean {
    const otherTier = this.judge(set, other, width, height)
    const { leftUm2: otherLeftUm2, marginUm: otherMarginUm } = this
    const tier = this.judge(set, slot, width, height)
    if (tier !== otherTier) return tier < otherTier
    if (tier === tiers.near && this.marginUm !== otherMarginUm) return this.marginUm > otherMarginUm
    const [piece, known] = [this.pieceAt(slot), this.pieceAt(other)]
    if (piece.isOffcut !== known.isOffcut) return piece.isOffcut
    return this.leftUm2 === otherLeftUm2 ? byName(piece, known) < 0 : this.leftUm2 < otherLeftUm2
  }

  /** Whether a design takes the same of each of the pieces, either way round. */
  isOneCount(set: LimitSet): boolean {
    return set.leastPitchUm === set.mostPitchUm && this.#leastAfterWashing === this.#mostAfterWashing
  }

  /** The exact cut takes no more of any of the pieces. */
  mostCutUm2({ mostPitchUm, uncertaintyUm }: LimitSet, width: number, height: number): number {
    const { leftUm, rightUm, topUm, bottomUm } = this.#settings.margins
    const widthUm = (width * mostPitchUm + uncertaintyUm + leftUm + rightUm) / this.#leastAfterWashing
    const heightUm = (height * mostPitchUm + uncertaintyUm + topUm + bottomUm) / this.#leastAfterWashing
    return widthUm * heightUm
  }

  #measure(set: LimitSet, slot: number, piece: ClothPiece): void {
    const over = set.over === 'usual' ? overOn(piece.weave, null) : set.over
    set.limits = withRoom(set.limits, (slot + 1) * limitStride)
    set.endsUm = withRoom(set.endsUm, slot + 1)
    set.picksUm = withRoom(set.picksUm, slot + 1)
    set.endsUm[slot] = pitchUm(piece.ends, over)
    set.picksUm[slot] = pitchUm(piece.picks, over)
    set.leastPitchUm = Math.min(set.leastPitchUm, set.endsUm[slot] as number, set.picksUm[slot] as number)
    set.mostPitchUm = Math.max(set.mostPitchUm, set.endsUm[slot] as number, set.picksUm[slot] as number)
    const { uncertaintyUm } = set
    writeStitchLimits(set.limits, slot * limitStride, piece, { over, uncertaintyUm, settings: this.#settings })
  }

  #leftOf(set: LimitSet, slot: number, isTurned: boolean, width: number, height: number): number {
    const { leftUm, rightUm, topUm, bottomUm } = this.#settings.margins
    const afterWashing = this.#afterWashing[slot] as number
    const acrossUm = (isTurned ? set.picksUm : set.endsUm)[slot] as number
    const upUm = (isTurned ? set.endsUm : set.picksUm)[slot] as number
    const cutWidthUm = (width * acrossUm + set.uncertaintyUm + leftUm + rightUm) / afterWashing
    const cutHeightUm = (height * upUm + set.uncertaintyUm + topUm + bottomUm) / afterWashing
    return (this.#areaUm2[slot] as number) - cutWidthUm * cutHeightUm
  }

  /** The narrowest margin on the sides that have to give way. */
  #marginOf(set: LimitSet, slot: number, isTurned: boolean, width: number, height: number): number {
    const { leftUm, rightUm, topUm, bottomUm } = this.#settings.margins
    const piece = this.pieceAt(slot)
    const [weftUm, warpUm] = [set.endsUm[slot] as number, set.picksUm[slot] as number]
    const across = isTurned ? width * warpUm : width * weftUm
    const up = isTurned ? height * weftUm : height * warpUm
    const [acrossSideUm, upSideUm] = isTurned ? [piece.heightUm, piece.widthUm] : [piece.widthUm, piece.heightUm]
    return Math.min(
      this.#narrowed(set, slot, acrossSideUm, across, leftUm, rightUm),
      this.#narrowed(set, slot, upSideUm, up, topUm, bottomUm),
    )
  }

  /** The narrower of two margins brought down to the room there is; no bound where the side is long enough. */
  #narrowed(set: LimitSet, slot: number, sideUm: number, finishedUm: number, oneUm: number, otherUm: number): number {
    const afterWashing = this.#afterWashing[slot] as number
    const cutUm = (finishedUm + set.uncertaintyUm + oneUm + otherUm) / afterWashing
    if (sideUm - cutUm >= -toleranceUm) return Number.POSITIVE_INFINITY
    const roomUm = Math.max(0, sideUm * afterWashing - finishedUm - set.uncertaintyUm)
    const togetherUm = oneUm + otherUm
    const leastUm = Math.min(oneUm, otherUm)
    return roomUm >= togetherUm - toleranceUm ? leastUm : Math.floor(leastUm * (roomUm / togetherUm) + toleranceUm)
  }

  /** Both ways fit alike, but upright there is nothing to spare. Square cloth leaves the same either way, so it is not asked. */
  #hasRoomTurnedOnly(set: LimitSet, slot: number, width: number, height: number): boolean {
    if (set.endsUm[slot] === set.picksUm[slot]) return false
    return !this.#hasRoom(set, slot, false, width, height) && this.#hasRoom(set, slot, true, width, height)
  }

  #hasRoom(set: LimitSet, slot: number, isTurned: boolean, width: number, height: number): boolean {
    const { leftUm, rightUm, topUm, bottomUm } = this.#settings.margins
    const piece = this.pieceAt(slot)
    const acrossUm = (isTurned ? set.picksUm : set.endsUm)[slot] as number
    const upUm = (isTurned ? set.endsUm : set.picksUm)[slot] as number
    const [acrossSideUm, upSideUm] = isTurned ? [piece.heightUm, piece.widthUm] : [piece.widthUm, piece.heightUm]
    return (
      this.#isSpared(slot, acrossSideUm, width * acrossUm + set.uncertaintyUm + leftUm + rightUm) &&
      this.#isSpared(slot, upSideUm, height * upUm + set.uncertaintyUm + topUm + bottomUm)
    )
  }

  /** Whether the rounded cut leaves something of a side. */
  #isSpared(slot: number, sideUm: number, washedUm: number): boolean {
    const cutUm = washedUm / (this.#afterWashing[slot] as number)
    return roundUpUm(cutUm, this.#settings.roundingUm) < sideUm && sideUm - cutUm > toleranceUm
  }
}

/** The order of pieces that are equal otherwise. */
export const byName = (a: ClothPiece, b: ClothPiece): number =>
  compareExact(a.label ?? '', b.label ?? '') || compareExact(a.id, b.id)

/** Whether a piece takes a design: as asked, at smaller margins, or not. */
export function stateOf(limits: Int32Array, at: number, width: number, height: number): number {
  const { asked, bare } = limitKinds
  if (isUnder(limits, at + asked, width, height) || isUnder(limits, at + asked + 2, width, height)) return tiers.fits
  return isUnder(limits, at + bare, width, height) || isUnder(limits, at + bare + 2, width, height) ? tiers.near : tiers.none
}
