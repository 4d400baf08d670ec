import { CopyCounts } from './copy-counts'
import type { Way } from './cut-problem'
import { type CutDirection, type CutTree, inCorner, parted } from './cut-tree'

export type BlockKind = { index: number; copies: number; value: number; ways: readonly Way[] }

/**
 * Blocks: boxes made of wanted pieces by setting two blocks side by side or one above the other, so that each can be cut with cuts from edge to
 * edge. Of blocks of the same pieces, only those are kept that no other is within.
 */
export class Blocks {
  readonly counts: CopyCounts
  readonly #kinds: readonly BlockKind[]
  size = 0
  width: Int32Array
  height: Int32Array
  value: Float64Array
  /** Of the wanted pieces in it. */
  area: Float64Array
  #words: Int32Array
  #first: Int32Array
  #second: Int32Array
  #direction: Uint8Array
  #same = new Map<string, number[]>()

  constructor(kinds: readonly BlockKind[]) {
    this.#kinds = kinds
    this.counts = new CopyCounts(kinds.map(({ copies }) => copies))
    const room = 1_024
    this.width = new Int32Array(room)
    this.height = new Int32Array(room)
    this.value = new Float64Array(room)
    this.area = new Float64Array(room)
    this.#words = new Int32Array(room * this.counts.words)
    this.#first = new Int32Array(room)
    this.#second = new Int32Array(room)
    this.#direction = new Uint8Array(room)
  }

  /** Every way every kind may lie on the sheet. */
  addWanted(sheet: { width: number; height: number }): void {
    for (const [kind, { ways, value }] of this.#kinds.entries())
      for (const [at, way] of ways.entries()) {
        if (way.width > sheet.width || way.height > sheet.height) continue
        const block = this.#next()
        this.width[block] = way.width
        this.height[block] = way.height
        this.value[block] = value
        this.area[block] = way.width * way.height
        this.#words[block * this.counts.words + this.counts.wordOf(kind)] = this.counts.oneOf(kind)
        // A leaf tells its kind and way by numbers below nought.
        this.#first[block] = -1 - kind
        this.#second[block] = at
        this.#keep(block)
      }
  }

  areTogetherWithin(one: number, other: number): boolean {
    const { words } = this.counts
    return this.counts.isWithin(this.#words, one * words, other * words)
  }

  /** Set two blocks together; false when a block of the same pieces lies within the new one already. */
  add(one: number, other: number, direction: CutDirection): boolean {
    const block = this.#next()
    const isUp = direction === 'up'
    const [w1, w2] = [this.width[one] as number, this.width[other] as number]
    const [h1, h2] = [this.height[one] as number, this.height[other] as number]
    this.width[block] = isUp ? w1 + w2 : Math.max(w1, w2)
    this.height[block] = isUp ? Math.max(h1, h2) : h1 + h2
    this.value[block] = (this.value[one] as number) + (this.value[other] as number)
    this.area[block] = (this.area[one] as number) + (this.area[other] as number)
    const { words } = this.counts
    for (let word = 0; word < words; word++)
      this.#words[block * words + word] =
        (this.#words[one * words + word] as number) + (this.#words[other * words + word] as number)
    this.#first[block] = one
    this.#second[block] = other
    this.#direction[block] = isUp ? 0 : 1
    return this.#keep(block)
  }

  /** How a block is cut from a rectangle in which it fits. */
  tree(block: number, width: number, height: number): CutTree {
    return inCorner(this.#boxed(block), this.#sizeOf(block), { width, height })
  }

  /** How two blocks are cut together from a rectangle in which they fit. */
  pairTree(one: number, other: number, direction: CutDirection, rectangle: { width: number; height: number }): CutTree {
    const isUp = direction === 'up'
    const [w1, w2] = [this.width[one] as number, this.width[other] as number]
    const [h1, h2] = [this.height[one] as number, this.height[other] as number]
    const [width, height] = isUp ? [w1 + w2, Math.max(h1, h2)] : [Math.max(w1, w2), h1 + h2]
    const pair = isUp
      ? parted('up', w1, width, this.tree(one, w1, height), this.tree(other, w2, height))
      : parted('across', h1, height, this.tree(one, width, h1), this.tree(other, width, h2))
    return inCorner(pair, { width, height }, rectangle)
  }

  #boxed(block: number): CutTree {
    const [first, second] = [this.#first[block] as number, this.#second[block] as number]
    if (first < 0) {
      const kind = this.#kinds[-1 - first] as BlockKind
      return { kind: 'wanted', index: kind.index, way: kind.ways[second] as Way }
    }
    return this.pairTree(first, second, this.#direction[block] === 0 ? 'up' : 'across', this.#sizeOf(block))
  }

  #sizeOf(block: number): { width: number; height: number } {
    return { width: this.width[block] as number, height: this.height[block] as number }
  }

  #next(): number {
    const block = this.size
    if (block === this.width.length) {
      const longer = <A extends Int32Array | Float64Array | Uint8Array>(array: A, make: new (size: number) => A): A => {
        const grown = new make(array.length * 2)
        grown.set(array as never)
        return grown
      }
      this.width = longer(this.width, Int32Array)
      this.height = longer(this.height, Int32Array)
      this.value = longer(this.value, Float64Array)
      this.area = longer(this.area, Float64Array)
      this.#words = longer(this.#words, Int32Array)
      this.#first = longer(this.#first, Int32Array)
      this.#second = longer(this.#second, Int32Array)
      this.#direction = longer(this.#direction, Uint8Array)
    }
    const { words } = this.counts
    this.#words.fill(0, block * words, (block + 1) * words)
    return block
  }

  #keep(block: number): boolean {
    const { words } = this.counts
    let key = ''
    for (let word = 0; word < words; word++) key += `${this.#words[block * words + word]} `
    const same = this.#same.get(key)
    const [width, height] = [this.width[block] as number, this.height[block] as number]
    if (same) {
      for (const known of same)
        if ((this.width[known] as number) <= width && (this.height[known] as number) <= height) return false
      same.push(block)
    } else this.#same.set(key, [block])
    this.size++
    return true
  }
}
