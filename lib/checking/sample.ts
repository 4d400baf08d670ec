/** So many of a stream, each as likely as any other, the same ones for the same seed; all of them where there are no more. */
export class Sample {
  readonly taken: string[] = []
  seen = 0
  #state: number

  constructor(
    readonly most: number,
    seed: number,
  ) {
    this.#state = (seed ^ 0x9e3779b9) >>> 0 || 1
  }

  /** Vitter, Random Sampling with a Reservoir, 1985, algorithm R. */
  offer(id: string): void {
    this.seen += 1
    if (this.taken.length < this.most) {
      this.taken.push(id)
      return
    }
    const at = this.#below(this.seen)
    if (at < this.most) this.taken[at] = id
  }

  get isWhole(): boolean {
    return this.seen <= this.most
  }

  /** Marsaglia, Xorshift RNGs, 2003: the 32-bit one with shifts 13, 17 and 5. */
  #below(limit: number): number {
    this.#state ^= this.#state << 13
    this.#state ^= this.#state >>> 17
    this.#state ^= this.#state << 5
    return (this.#state >>> 0) % limit
  }
}
