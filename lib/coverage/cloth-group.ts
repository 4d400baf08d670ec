import { withRoom } from '#lib/chart/with-room'
import type { ClothPiece } from '#lib/cloth/cloth-piece'
import type { ClothSettings } from './cloth-answer'
import { countTakers } from './count-takers'
import type { AskedDesigns, AskedOver } from './design-rows'
import { byName, type LimitSet, PieceJudge, stateOf, tiers } from './piece-judge'
import { ReachTree } from './reach-tree'
import { Shelves } from './shelves'
import { isUnder, limitKinds, limitStride } from './stitch-limits'

/** Answers by row: how many pieces fit as asked, how many more at smaller margins, and the slot of the best of them, -1 for none. */
export type AnswerColumn = { fits: Uint16Array; near: Uint16Array; best: Int32Array }

export const answerColumn = (rows: number): AnswerColumn => ({
  fits: new Uint16Array(rows),
  near: new Uint16Array(rows),
  best: new Int32Array(rows).fill(-1),
})

/** The column with room for so many rows; what is new has no answer. */
export function withAnswerRoom(column: AnswerColumn, rows: number): AnswerColumn {
  if (rows <= column.best.length) return column
  const [fits, near, best] = [withRoom(column.fits, rows), withRoom(column.near, rows), withRoom(column.best, rows)]
  return { fits, near, best: best.fill(-1, column.best.length) }
}

/** Counts are kept in 16 bits. */
const mostPieces = 0xffff
/**
 * Pieces of cloth that designs choose among: those of one kind, or those that suit one advice.
 *
 * They stand in the order `choosePiece` takes equals in: offcuts, then whole pieces, each the smaller area first. What a cut leaves is
 * the piece less the cut, so among pieces of one count the first that fits leaves least, and the search can stop there:
 *
 *   offcuts ▂ ▃ ▅ ▆ █   whole ▂ ▃ ▅ ▆ █        ×  too small one way     ✓  the first that fits
 *           ×  ×  ✓ ·           · · · · ·        ·  not looked at
 *
 * Counts a little apart leave a little more or less: it goes on until no larger piece could make up for that. One design looks along
 * the order. Many are gone through from the widest to the narrowest, and a tree over the order keeps how high each piece reaches at
 * the width come to, so that what does not fit is passed over in log n steps. Held to asking every piece in tests/property.
 */
export class ClothGroup {
  readonly #judge: PieceJudge
  readonly #slots = new Map<string, number>()
  readonly #freeSlots: number[] = []
  #order: number[] = []
  #offcutCount = 0

  constructor(settings: ClothSettings) {
    this.#judge = new PieceJudge(settings)
  }

  get size(): number {
    return this.#slots.size
  }

  /** As it came; what fit does not hang on may be other by now. */
  pieceAt(slot: number): ClothPiece {
    return this.#judge.pieceAt(slot)
  }

  *pieces(): Generator<ClothPiece> {
    for (const slot of this.#order) yield this.pieceAt(slot)
  }

  /** Take these pieces out and those in, without answering anybody; see `answerAll`. */
  change(gone: readonly ClothPiece[], come: readonly ClothPiece[]): void {
    for (const { id } of gone) this.#take(id)
    for (const piece of come) this.#put(piece)
    this.#arrange()
  }

  /** Answer all these designs. O((m + n) log(n h)) for m designs on n pieces of one count, up to h stitches high. */
  answerAll(asked: AskedDesigns, column: AnswerColumn): void {
    const { rows, widths, heights, tallest } = asked
    const { fits, near, best } = column
    const set = this.#judge.setOf(asked.over, asked.uncertaintyUm)
    const pieces = { limits: set.limits, slots: this.#order }
    countTakers({ ...pieces, kind: limitKinds.asked }, asked, fits)
    countTakers({ ...pieces, kind: limitKinds.bare }, asked, near)

    const squared = new RisingReach(pieces, limitKinds.squared, widths[0] ?? 0, tallest)
    const any = new RisingReach(pieces, limitKinds.asked, widths[0] ?? 0, tallest)
    for (let i = 0; i < rows.length; i++) {
      const [row, width, height] = [rows[i] as number, widths[i] as number, heights[i] as number]
      near[row] = (near[row] as number) - (fits[row] as number)
      if (i > 0 && width === widths[i - 1] && height === heights[i - 1]) {
        best[row] = best[rows[i - 1] as number] as number
        continue
      }
      squared.narrowTo(width)
      any.narrowTo(width)
      let found = -1
      if ((fits[row] as number) > 0) {
        found = this.#leavingLeast(set, squared, width, height)
        if (found < 0) found = this.#leavingLeast(set, any, width, height)
      } else if ((near[row] as number) > 0) found = this.#bestNear(set, width, height)
      best[row] = found
    }
  }

  /** Answer one design, piece by piece. */
  answerOne(
    asked: { over: AskedOver; uncertaintyUm: number; width: number; height: number },
    row: number,
    column: AnswerColumn,
  ): void {
    const { width, height } = asked
    const set = this.#judge.setOf(asked.over, asked.uncertaintyUm)
    let [fits, near] = [0, 0]
    for (const slot of this.#order) {
      const state = stateOf(set.limits, slot * limitStride, width, height)
      if (state === tiers.fits) fits++
      else if (state === tiers.near) near++
    }
    column.fits[row] = fits
    column.near[row] = near
    column.best[row] = this.#search(set, width, height, column, row)
  }

  /**
   * One piece goes, comes, or is not as it was; the answers given before are set right. Two comparisons a design; only those it was the
   * best for look for another.
   *
   * @param before  null when it is new
   * @param after   null when it goes
   */
  exchange(
    before: ClothPiece | null,
    after: ClothPiece | null,
    answered: readonly { asked: readonly AskedDesigns[]; column: AnswerColumn }[],
  ): void {
    const at = before ? (this.#slots.get(before.id) as number) * limitStride : 0
    const lists = answered.flatMap(({ asked, column }) =>
      asked.map((designs) => {
        const set = this.#judge.setOf(designs.over, designs.uncertaintyUm)
        return { designs, column, set, was: before ? set.limits.slice(at, at + limitStride) : new Int32Array(limitStride) }
      }),
    )
    const left = before ? this.#take(before.id) : -1
    const slot = after ? this.#put(after) : left
    this.#arrange()
    for (const { designs, column, set, was } of lists) {
      const is = after ? set.limits.slice(slot * limitStride, (slot + 1) * limitStride) : new Int32Array(limitStride)
      this.#setRight(designs, column, set, { slot, was, is })
    }
  }

  #setRight(
    { rows, widths, heights }: AskedDesigns,
    column: AnswerColumn,
    set: LimitSet,
    { slot, was, is }: { slot: number; was: Int32Array; is: Int32Array },
  ): void {
    const { fits, near, best } = column
    const { bare } = limitKinds
    const reach = (side: number) =>
      Math.max(...[was, is].flatMap((limits) => [limits[bare + side] as number, limits[bare + 2 + side] as number]))
    const [widest, highest] = [reach(0), reach(1)]
    for (let i = firstAtMost(widths, widest); i < rows.length; i++) {
      const [width, height] = [widths[i] as number, heights[i] as number]
      if (height > highest) continue
      const [before, now] = [stateOf(was, 0, width, height), stateOf(is, 0, width, height)]
      if (before === tiers.none && now === tiers.none) continue
      const row = rows[i] as number
      fits[row] = (fits[row] as number) + Number(now === tiers.fits) - Number(before === tiers.fits)
      near[row] = (near[row] as number) + Number(now === tiers.near) - Number(before === tiers.near)
      const known = best[row] as number
      if (known === slot) best[row] = this.#search(set, width, height, column, row)
      else if (now !== tiers.none && (known < 0 || this.#judge.isBetter(set, slot, known, width, height))) best[row] = slot
    }
  }

  /** The best piece for one design, once it is known how many there are. */
  #search(set: LimitSet, width: number, height: number, { fits, near }: AnswerColumn, row: number): number {
    if ((fits[row] as number) === 0) return (near[row] as number) > 0 ? this.#bestNear(set, width, height) : -1
    const found = this.#leavingLeast(set, limitKinds.squared, width, height)
    return found >= 0 ? found : this.#leavingLeast(set, limitKinds.asked, width, height)
  }

  /**
   * Of the pieces that fit under one kind of limits: the offcut that leaves least or, where no offcut fits, the whole piece that does.
   *
   * @param under  the kind of limits, or a tree of how high they reach at this width
   */
  #leavingLeast(set: LimitSet, under: number | RisingReach, width: number, height: number): number {
    const order = this.#order
    const judge = this.#judge
    const isTree = typeof under !== 'number'
    const isOneCount = judge.isOneCount(set)
    const mostCutUm2 = judge.mostCutUm2(set, width, height)
    let best = -1
    let lastPlace = order.length - 1
    let leastUm2 = Number.POSITIVE_INFINITY
    for (let from = 0; ; ) {
      const place = isTree ? under.tree.firstFrom(from, height) : this.#firstUnder(set, under, from, width, height)
      if (place < 0 || place > lastPlace) return best
      const slot = order[place] as number
      if (judge.areaUm2(slot) - mostCutUm2 >= leastUm2) return best
      if (isOneCount) return slot
      judge.judge(set, slot, width, height)
      if (judge.leftUm2 < leastUm2) {
        best = slot
        leastUm2 = judge.leftUm2
        if (place < this.#offcutCount) lastPlace = this.#offcutCount - 1
      }
      from = place + 1
    }
  }

  #firstUnder({ limits }: LimitSet, kind: number, from: number, width: number, height: number): number {
    const order = this.#order
    for (let place = from; place < order.length; place++) {
      const at = (order[place] as number) * limitStride + kind
      if (isUnder(limits, at, width, height) || isUnder(limits, at + 2, width, height)) return place
    }
    return -1
  }

  /** Of the pieces that take the design only at smaller margins: the largest margin, then offcuts, then what leaves least. */
  #bestNear(set: LimitSet, width: number, height: number): number {
    let best = -1
    for (let place = this.#firstUnder(set, limitKinds.bare, 0, width, height); place >= 0; ) {
      const slot = this.#order[place] as number
      if (best < 0 || this.#judge.isBetter(set, slot, best, width, height)) best = slot
      place = this.#firstUnder(set, limitKinds.bare, place + 1, width, height)
    }
    return best
  }

  /** @returns the slot it leaves free */
  #take(id: string): number {
    const slot = this.#slots.get(id)
    if (slot === undefined) throw new RangeError(`ClothGroup: no piece ${id}`)
    this.#slots.delete(id)
    this.#order.splice(this.#order.indexOf(slot), 1)
    this.#judge.clear(slot)
    this.#freeSlots.push(slot)
    return slot
  }

  #put(piece: ClothPiece): number {
    const slot = this.#freeSlots.pop() ?? this.#slots.size
    if (slot >= mostPieces) throw new RangeError(`ClothGroup: more than ${mostPieces} pieces`)
    this.#slots.set(piece.id, slot)
    this.#order.push(slot)
    this.#judge.set(slot, piece)
    return slot
  }

  #arrange(): void {
    const judge = this.#judge
    // All but what came last stands in order already, which makes this one pass.
    this.#order.sort((a, b) => {
      const [piece, other] = [judge.pieceAt(a), judge.pieceAt(b)]
      return Number(other.isOffcut) - Number(piece.isOffcut) || judge.areaUm2(a) - judge.areaUm2(b) || byName(piece, other)
    })
    const wholeFrom = this.#order.findIndex((slot) => !judge.pieceAt(slot).isOffcut)
    this.#offcutCount = wholeFrom < 0 ? this.#order.length : wholeFrom
  }
}

/** The first of falling widths that is no more than `width`. */
function firstAtMost(widths: Int32Array, width: number): number {
  let [low, high] = [0, widths.length]
  while (low < high) {
    const middle = (low + high) >>> 1
    if ((widths[middle] as number) > width) low = middle + 1
    else high = middle
  }
  return low
}

/** How high each piece of an order reaches, at a width that only becomes narrower. */
class RisingReach {
  readonly tree: ReachTree
  readonly #shelves: Shelves
  readonly #heights: Int32Array
  #width: number

  /** @param kind  the limits meant, as `limitKinds` has them */
  constructor(pieces: { limits: Int32Array; slots: readonly number[] }, kind: number, widest: number, tallest: number) {
    const { limits, slots } = pieces
    this.tree = new ReachTree(slots.length)
    this.#shelves = new Shelves(widest, slots.length * 2)
    this.#heights = new Int32Array(slots.length * 2)
    this.#width = widest + 1
    for (let thing = 0; thing < slots.length * 2; thing++) {
      const at = (slots[thing >>> 1] as number) * limitStride + kind + (thing & 1) * 2
      this.#heights[thing] = Math.min(limits[at + 1] as number, tallest)
      this.#shelves.put(thing, limits[at] as number)
    }
  }

  narrowTo(width: number): void {
    while (this.#width > width) {
      this.#width--
      for (let thing = this.#shelves.firstOn(this.#width); thing >= 0; thing = this.#shelves.after(thing)) {
        this.tree.raise(thing >>> 1, this.#heights[thing] as number)
      }
    }
  }
}
