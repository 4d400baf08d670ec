/**
 * How high each of a row of things reaches, and which is the first that reaches so high.
 *
 *          9            Each knot is the higher of the two under it. The first leaf from a place on that is at least 6: up while there
 *        ┌─┴─┐          is no such knot to the right, then down, left where the left one is high enough. Both ways log n steps.
 *        7   9
 *       ┌┴┐ ┌┴┐
 *       3 7 2 9
 */
export class ReachTree {
  readonly #leaves: number
  /** The root at 1, the leaves from `#leaves` on. */
  readonly #reach: Int32Array

  constructor(count: number) {
    let leaves = 1
    while (leaves < count) leaves *= 2
    this.#leaves = leaves
    this.#reach = new Int32Array(leaves * 2)
  }

  /** From now on this place reaches at least so high. */
  raise(place: number, height: number): void {
    const reach = this.#reach
    for (let at = this.#leaves + place; at > 0 && (reach[at] as number) < height; at >>>= 1) reach[at] = height
  }

  /** @param height above nought. @returns -1 when none from `place` on reaches so high */
  firstFrom(place: number, height: number): number {
    const reach = this.#reach
    if (place >= this.#leaves) return -1
    let at = this.#leaves + place
    while ((reach[at] as number) < height) {
      // A right child is done with its parent; the last on its level has nothing to its right.
      while ((at & 1) === 1) at >>>= 1
      if (at === 0) return -1
      at += 1
    }
    while (at < this.#leaves) {
      at *= 2
      if ((reach[at] as number) < height) at += 1
    }
    return at - this.#leaves
  }
}
