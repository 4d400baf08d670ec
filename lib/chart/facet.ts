import { withRoom } from './with-room'

/** The values of one facet: names, and for each slot a run in a pool of their indexes. */
export class Facet {
  readonly values: string[] = []
  readonly #index = new Map<string, number>()
  starts = new Uint32Array(64)
  ends = new Uint32Array(64)
  pool = new Uint32Array(256)
  #used = 0
  #live = 0

  indexOf(value: string): number {
    return this.#index.get(value) ?? -1
  }

  set(slot: number, values: readonly string[]): void {
    this.clear(slot)
    this.starts = withRoom(this.starts, slot + 1)
    this.ends = withRoom(this.ends, slot + 1)
    this.pool = withRoom(this.pool, this.#used + values.length)
    this.starts[slot] = this.#used
    for (const value of new Set(values)) {
      let index = this.#index.get(value)
      if (index === undefined) {
        index = this.values.length
        this.values.push(value)
        this.#index.set(value, index)
      }
      this.pool[this.#used++] = index
    }
    this.ends[slot] = this.#used
    this.#live += this.#used - (this.starts[slot] as number)
    if (this.#used > 1_024 + this.#live * 2) this.#pack()
  }

  clear(slot: number): void {
    if (slot >= this.ends.length) return
    this.#live -= (this.ends[slot] as number) - (this.starts[slot] as number)
    this.starts[slot] = 0
    this.ends[slot] = 0
  }

  #pack(): void {
    const packed = new Uint32Array(this.#live * 2)
    let at = 0
    for (let slot = 0; slot < this.ends.length; slot++) {
      const [start, end] = [this.starts[slot] as number, this.ends[slot] as number]
      packed.set(this.pool.subarray(start, end), at)
      this.starts[slot] = at
      at += end - start
      this.ends[slot] = at
    }
    this.pool = packed
    this.#used = at
  }
}
