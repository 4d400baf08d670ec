/**
 * How many of each kind, in a few 32-bit words: a field for each kind, with one bit more than its copies need. Two counts are added word
 * by word; a field that has gone over its copies shows in that bit.
 */
export class CopyCounts {
  readonly words: number
  /** By kind: the word its field is in, and one of it there. */
  readonly #word: number[] = []
  readonly #one: number[] = []
  readonly #mask: number[] = []
  /** Added to a word, it carries a field that is over into its spare bit. */
  readonly #slack: number[]
  readonly #spare: number[]

  /** @throws {RangeError} if there are more than a thousand million copies of a kind. */
  constructor(copies: readonly number[]) {
    let word = 0
    let used = 0
    const slack: number[] = [0]
    const spare: number[] = [0]
    for (const many of copies) {
      const bits = Math.ceil(Math.log2(many + 1)) + 1
      if (bits > 31) throw new RangeError(`CopyCounts: ${many} copies`)
      if (used + bits > 31) {
        word++
        used = 0
        slack.push(0)
        spare.push(0)
      }
      this.#word.push(word)
      this.#one.push(1 << used)
      this.#mask.push(((1 << bits) - 1) << used)
      slack[word] = (slack[word] as number) | (((1 << (bits - 1)) - 1 - many) << used)
      spare[word] = (spare[word] as number) | (1 << (used + bits - 1))
      used += bits
    }
    this.words = word + 1
    this.#slack = slack
    this.#spare = spare
  }

  wordOf(kind: number): number {
    return this.#word[kind] as number
  }

  oneOf(kind: number): number {
    return this.#one[kind] as number
  }

  /** Whether the counts at two places of `counts` are together within the copies there are. */
  isWithin(counts: Int32Array, one: number, other: number): boolean {
    for (let word = 0; word < this.words; word++) {
      const sum = (counts[one + word] as number) + (counts[other + word] as number)
      if (((sum + (this.#slack[word] as number)) & (this.#spare[word] as number)) !== 0) return false
    }
    return true
  }

  /** How many of a kind. */
  read(counts: Int32Array, at: number, kind: number): number {
    return ((counts[at + this.wordOf(kind)] as number) & (this.#mask[kind] as number)) / this.oneOf(kind)
  }
}
