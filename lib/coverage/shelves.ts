/** Things by their whole widths, to be taken up as a sweep goes from wide to narrow. What is wider stands on the topmost shelf too. */
export class Shelves {
  readonly #first: Int32Array
  readonly #next: Int32Array

  /** @param things  how many there may be, numbered from 0 */
  constructor(
    readonly widest: number,
    things: number,
  ) {
    this.#first = new Int32Array(widest + 1).fill(-1)
    this.#next = new Int32Array(things)
  }

  /** Nothing happens when it has no width. */
  put(thing: number, width: number): void {
    if (width <= 0) return
    const shelf = Math.min(width, this.widest)
    this.#next[thing] = this.#first[shelf] as number
    this.#first[shelf] = thing
  }

  /** The first thing on a shelf, -1 when it is empty. */
  firstOn(shelf: number): number {
    return this.#first[shelf] as number
  }

  /** The thing after this one on its shelf, -1 after the last. */
  after(thing: number): number {
    return this.#next[thing] as number
  }
}
