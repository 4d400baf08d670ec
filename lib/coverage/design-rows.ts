import type { AdvisedCloth } from '#lib/chart/design'
import { type StitchSize, stitchSize } from '#lib/chart/design-size'
import { withRoom } from '#lib/chart/with-room'
import { type Weave, weaves } from '#lib/cloth/cloth-piece'
import { type ClothDesign, isAllowedOn, otherOver, overOn } from './cloth-answer'

/** Over how many threads; `usual` where the chart advises no cloth: one block, two single threads. */
export type AskedOver = 1 | 2 | 'usual'

/** Designs of one uncertainty, asked over the same: the widest first, of equal ones the highest. */
export type AskedDesigns = {
  over: AskedOver
  uncertaintyUm: number
  rows: Int32Array
  widths: Int32Array
  heights: Int32Array
  /** Of their heights. */
  tallest: number
}

/** A design is asked over the number of threads usual for it on a weave, and over the other one where the weave allows it. */
export const overSlots = ['usual', 'other'] as const
export type OverSlot = (typeof overSlots)[number]

/** What of a chart's advice the choice of cloth hangs on; charts that advise alike choose among the same pieces. */
export type Advice = { advised: AdvisedCloth | null; over: AskedOver }

/** Designs of one advice and one uncertainty are asked alike on every piece. */
type Likeness = { advice: number; uncertaintyUm: number }

/** A design to be asked about. */
export type AskedRow = { design: ClothDesign; size: StitchSize; advice: number }

type Sorted = { onWeave: Map<string, AskedDesigns[]>; byAdvice: AskedDesigns[][] }

/** All designs by row, and sorted as they are asked. Rows of removed designs are used again. */
export class DesignRows {
  readonly #designs: (ClothDesign | null)[] = []
  readonly #byId = new Map<string, number>()
  readonly #free: number[] = []
  readonly #advices: Advice[] = []
  readonly #adviceIndex = new Map<string, number>()
  readonly #likenesses: Likeness[] = []
  /** In stitches; nought where nothing is to be asked. */
  #widths = new Int32Array(64)
  #heights = new Int32Array(64)
  /** Into the likenesses. */
  #alike = new Int32Array(64)
  #sorted: Sorted | null = null
  #layout: object = {}

  /** Another object once a row means another design. */
  get layout(): object {
    return this.#layout
  }

  /** Rows in use or used before. */
  get count(): number {
    return this.#designs.length
  }

  get advices(): readonly Advice[] {
    return this.#advices
  }

  rowOf(designId: string): number {
    return this.#byId.get(designId) ?? -1
  }

  /** Null where the design is gone or its size is not known. */
  at(row: number): AskedRow | null {
    const design = this.#designs[row] ?? null
    const size = design && stitchSize(design)
    return design && size && { design, size, advice: this.adviceAt(row) }
  }

  /** The index of a row's advice. */
  adviceAt(row: number): number {
    return (this.#likenesses[this.#alike[row] as number] as Likeness).advice
  }

  /** @throws {RangeError} if no design is there */
  designIdAt(row: number): string {
    const design = this.#designs[row]
    if (!design) throw new RangeError(`DesignRows: no design at ${row}`)
    return design.id
  }

  put(design: ClothDesign): number {
    const known = this.#byId.get(design.id)
    const row = known ?? this.#free.pop() ?? this.#designs.length
    if (known === undefined) {
      this.#byId.set(design.id, row)
      this.#layout = {}
    }
    const size = stitchSize(design)
    this.#designs[row] = design
    this.#widths = withRoom(this.#widths, row + 1)
    this.#heights = withRoom(this.#heights, row + 1)
    this.#alike = withRoom(this.#alike, row + 1)
    this.#widths[row] = size?.width ?? 0
    this.#heights[row] = size?.height ?? 0
    this.#alike[row] = this.#likenessOf(design.advised, size?.uncertaintyUm ?? 0)
    this.#sorted = null
    return row
  }

  remove(designId: string): void {
    const row = this.rowOf(designId)
    if (row < 0) return
    this.#byId.delete(designId)
    this.#designs[row] = null
    this.#widths[row] = 0
    this.#free.push(row)
    this.#layout = {}
    this.#sorted = null
  }

  /** The designs that may be worked on a weave. */
  askedOn(weave: Weave, slot: OverSlot): readonly AskedDesigns[] {
    return this.#sort().onWeave.get(`${weave} ${slot}`) ?? []
  }

  /** The designs whose charts advise so. */
  askedBy(advice: number): readonly AskedDesigns[] {
    return this.#sort().byAdvice[advice] ?? []
  }

  /** Sorts anew after a change of designs: 20,000 in some 10 ms. */
  #sort(): Sorted {
    if (this.#sorted) return this.#sorted
    const [widths, heights, count] = [this.#widths, this.#heights, this.#designs.length]
    let [widest, highest] = [0, 0]
    for (let row = 0; row < count; row++) {
      widest = Math.max(widest, widths[row] as number)
      highest = Math.max(highest, heights[row] as number)
    }
    // Sorted as numbers, which is several times as fast as comparing rows: what lacks of the widest, of the highest, and the row.
    const keys = new Float64Array(count)
    let known = 0
    for (let row = 0; row < count; row++) {
      if (widths[row] === 0) continue
      keys[known++] = ((widest - (widths[row] as number)) * (highest + 1) + highest - (heights[row] as number)) * count + row
    }
    const sorted = Int32Array.from(keys.subarray(0, known).sort(), (key) => key % count)
    const onWeave = new Map<string, AskedDesigns[]>()
    for (const weave of weaves) {
      for (const slot of overSlots) {
        onWeave.set(
          `${weave} ${slot}`,
          this.#pick(sorted, ({ advised }) => overOf(weave, slot, advised)),
        )
      }
    }
    this.#sorted = { onWeave, byAdvice: this.#pickByAdvice(sorted) }
    return this.#sorted
  }

  /** Of sorted rows, those asked over some number of threads, put to those asked alike. */
  #pick(sorted: Int32Array, overFor: (advice: Advice) => AskedOver | null): AskedDesigns[] {
    const lists: { over: AskedOver; uncertaintyUm: number }[] = []
    const listOf = this.#likenesses.map(({ advice, uncertaintyUm }) => {
      const over = overFor(this.#advices[advice] as Advice)
      if (over === null) return -1
      const known = lists.findIndex((list) => list.over === over && list.uncertaintyUm === uncertaintyUm)
      return known >= 0 ? known : lists.push({ over, uncertaintyUm }) - 1
    })
    return this.#fill(sorted, lists, Int32Array.from(listOf)).filter(({ rows }) => rows.length > 0)
  }

  #pickByAdvice(sorted: Int32Array): AskedDesigns[][] {
    const lists = this.#likenesses.map(({ advice, uncertaintyUm }) => ({
      ...{ over: (this.#advices[advice] as Advice).over, uncertaintyUm },
    }))
    const filled = this.#fill(sorted, lists, Int32Array.from(lists.keys()))
    const byAdvice: AskedDesigns[][] = this.#advices.map(() => [])
    filled.forEach((asked, like) => {
      if (asked.rows.length > 0) byAdvice[(this.#likenesses[like] as Likeness).advice]?.push(asked)
    })
    return byAdvice
  }

  #fill(sorted: Int32Array, lists: readonly { over: AskedOver; uncertaintyUm: number }[], listOf: Int32Array): AskedDesigns[] {
    const lengths = new Int32Array(lists.length)
    for (const row of sorted) {
      const list = listOf[this.#alike[row] as number] as number
      if (list >= 0) lengths[list] = (lengths[list] as number) + 1
    }
    const filled = lists.map(({ over, uncertaintyUm }, list): AskedDesigns => {
      const length = lengths[list] as number
      const columns = { rows: new Int32Array(length), widths: new Int32Array(length), heights: new Int32Array(length) }
      return { over, uncertaintyUm, tallest: 0, ...columns }
    })
    lengths.fill(0)
    for (const row of sorted) {
      const list = listOf[this.#alike[row] as number] as number
      if (list < 0) continue
      const to = filled[list] as AskedDesigns
      const at = lengths[list] as number
      lengths[list] = at + 1
      to.rows[at] = row
      to.widths[at] = this.#widths[row] as number
      to.heights[at] = this.#heights[row] as number
      to.tallest = Math.max(to.tallest, to.heights[at] as number)
    }
    return filled
  }

  #likenessOf(advised: AdvisedCloth | null, uncertaintyUm: number): number {
    const advice = this.#adviceOf(advised)
    const known = this.#likenesses.findIndex((like) => like.advice === advice && like.uncertaintyUm === uncertaintyUm)
    return known >= 0 ? known : this.#likenesses.push({ advice, uncertaintyUm }) - 1
  }

  #adviceOf(advised: AdvisedCloth | null): number {
    const key = adviceKey(advised)
    let index = this.#adviceIndex.get(key)
    if (index === undefined) {
      index = this.#advices.length
      this.#advices.push({ advised, over: advised?.over ?? 'usual' })
      this.#adviceIndex.set(key, index)
    }
    return index
  }
}

/** Over how many threads a design is worked on a weave; null where it is not. */
export function overOf(weave: Weave, slot: OverSlot, advised: AdvisedCloth | null): 1 | 2 | null {
  if (!isAllowedOn(weave, advised)) return null
  return slot === 'usual' ? overOn(weave, advised) : otherOver(weave, advised)
}

const adviceKey = (advised: AdvisedCloth | null): string => {
  if (advised === null) return ''
  const { count, weave, over, insists, name } = advised
  return `${count.threads}/${count.perUm} ${weave} ${over} ${insists ? `only ${name}` : ''}`
}
