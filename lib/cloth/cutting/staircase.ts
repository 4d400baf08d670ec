/**
 * The least boxes that something can be cut from: heights rise, widths fall, and no box is larger than another both ways.
 *
 * ```
 *  height
 *    │  ┌──────────
 *    │  │ enough
 *    │  └────┐
 *    │       └─────── each corner is a least box
 *    └─────────────── width
 * ```
 */
export type Staircase = { heights: Int32Array; widths: Int32Array }

/** Wider than any cloth: what cannot be. */
export const never = 0x7fffffff

/** The least width at a height; `never` when the height is too small. */
export function widthAt({ heights, widths }: Staircase, height: number): number {
  let low = 0
  let high = heights.length
  while (low < high) {
    const middle = (low + high) >> 1
    if ((heights[middle] as number) <= height) low = middle + 1
    else high = middle
  }
  return low === 0 ? never : (widths[low - 1] as number)
}

/** The least height at a width; `never` when the width is too small. */
export function heightAt({ heights, widths }: Staircase, width: number): number {
  let low = 0
  let high = widths.length
  while (low < high) {
    const middle = (low + high) >> 1
    if ((widths[middle] as number) <= width) high = middle
    else low = middle + 1
  }
  return low === widths.length ? never : (heights[low] as number)
}

/** Gathers boxes and keeps the least of them. One is used again for many staircases: its room only grows. */
export class StaircaseBuilder {
  #heights = new Int32Array(256)
  #widths = new Int32Array(256)
  #size = 0
  #newHeights = new Int32Array(256)
  #newWidths = new Int32Array(256)
  #mergedHeights = new Int32Array(256)
  #mergedWidths = new Int32Array(256)

  clear(): void {
    this.#size = 0
  }

  get isEmpty(): boolean {
    return this.#size === 0
  }

  take(): Staircase {
    return { heights: this.#heights.slice(0, this.#size), widths: this.#widths.slice(0, this.#size) }
  }

  addBox(width: number, height: number): void {
    this.#newHeights[0] = height
    this.#newWidths[0] = width
    this.#merge(1)
  }

  /** Boxes that take the two side by side: at each height both widths together, as far as `mostWidth`. */
  addBeside(a: Staircase, b: Staircase, mostWidth: number): void {
    const [ah, aw, bh, bw] = [a.heights, a.widths, b.heights, b.widths]
    this.#room(ah.length + bh.length)
    const heights = this.#newHeights
    const widths = this.#newWidths
    let i = 0
    let j = 0
    let size = 0
    // Both begin at the higher of the two least heights.
    const start = Math.max(ah[0] as number, bh[0] as number)
    while (i + 1 < ah.length && (ah[i + 1] as number) <= start) i++
    while (j + 1 < bh.length && (bh[j + 1] as number) <= start) j++
    let height = start
    for (;;) {
      const width = (aw[i] as number) + (bw[j] as number)
      if (width <= mostWidth) {
        heights[size] = height
        widths[size++] = width
      }
      const nextA = i + 1 < ah.length ? (ah[i + 1] as number) : never
      const nextB = j + 1 < bh.length ? (bh[j + 1] as number) : never
      if (nextA === never && nextB === never) break
      height = Math.min(nextA, nextB)
      if (nextA === height) i++
      if (nextB === height) j++
    }
    this.#merge(size)
  }

  /** Boxes that take the one above the other: at each width both heights together, as far as `mostHeight`. */
  addAbove(a: Staircase, b: Staircase, mostHeight: number): void {
    const [ah, aw, bh, bw] = [a.heights, a.widths, b.heights, b.widths]
    this.#room(ah.length + bh.length)
    const heights = this.#newHeights
    const widths = this.#newWidths
    let i = aw.length - 1
    let j = bw.length - 1
    const start = Math.max(aw[i] as number, bw[j] as number)
    while (i > 0 && (aw[i - 1] as number) <= start) i--
    while (j > 0 && (bw[j - 1] as number) <= start) j--
    let width = start
    // From the narrowest, which is the highest, on: written from the end, so that heights rise.
    let at = heights.length
    for (;;) {
      const height = (ah[i] as number) + (bh[j] as number)
      if (height <= mostHeight) {
        at--
        heights[at] = height
        widths[at] = width
      }
      const nextA = i > 0 ? (aw[i - 1] as number) : never
      const nextB = j > 0 ? (bw[j - 1] as number) : never
      if (nextA === never && nextB === never) break
      width = Math.min(nextA, nextB)
      if (nextA === width) i--
      if (nextB === width) j--
    }
    const size = heights.length - at
    heights.copyWithin(0, at)
    widths.copyWithin(0, at)
    this.#merge(size)
  }

  #room(size: number): void {
    if (size <= this.#newHeights.length) return
    this.#newHeights = new Int32Array(2 * size)
    this.#newWidths = new Int32Array(2 * size)
  }

  /** Take the first `size` of the new boxes, themselves a staircase, into what is kept. */
  #merge(size: number): void {
    const [nh, nw] = [this.#newHeights, this.#newWidths]
    const [heights, widths] = [this.#heights, this.#widths]
    let isBetter = false
    for (let n = 0, k = 0; n < size; n++) {
      while (k < this.#size && (heights[k] as number) <= (nh[n] as number)) k++
      if (k === 0 || (widths[k - 1] as number) > (nw[n] as number)) {
        isBetter = true
        break
      }
    }
    if (!isBetter) return
    if (this.#mergedHeights.length < this.#size + size) {
      this.#mergedHeights = new Int32Array(2 * (this.#size + size))
      this.#mergedWidths = new Int32Array(2 * (this.#size + size))
    }
    const [mh, mw] = [this.#mergedHeights, this.#mergedWidths]
    let merged = 0
    let k = 0
    let n = 0
    let least = never
    while (k < this.#size || n < size) {
      const isOld = n >= size || (k < this.#size && lowerFirst(heights, widths, k, nh, nw, n))
      const height = (isOld ? heights[k] : nh[n]) as number
      const width = (isOld ? widths[k++] : nw[n++]) as number
      if (width >= least) continue
      least = width
      mh[merged] = height
      mw[merged++] = width
    }
    this.#mergedHeights = heights
    this.#mergedWidths = widths
    this.#heights = mh
    this.#widths = mw
    this.#size = merged
  }
}

function lowerFirst(ah: Int32Array, aw: Int32Array, i: number, bh: Int32Array, bw: Int32Array, j: number): boolean {
  const difference = (ah[i] as number) - (bh[j] as number)
  return difference < 0 || (difference === 0 && (aw[i] as number) <= (bw[j] as number))
}
