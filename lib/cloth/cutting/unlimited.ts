import type { BlockKind } from './blocks'
import { type CutTree, free, inCorner, parted } from './cut-tree'

/** As many sums as are worked through at once without a pause being felt. */
const mostSums = 150_000_000

/** Sums of whole sides not above `most`, nought first; null when there are more than `room`. */
function sumsOf(sides: readonly number[], most: number, room: number): number[] | null {
  const sums = new Set([0])
  const waiting = [0]
  for (let sum = waiting.pop(); sum !== undefined; sum = waiting.pop())
    for (const side of sides) {
      const next = sum + side
      if (next > most || sums.has(next)) continue
      if (sums.size >= room) return null
      sums.add(next)
      waiting.push(next)
    }
  return [...sums].sort((a, b) => a - b)
}

/** Where a length falls among sums: the last that is not above it. */
function lastNotAbove(sums: readonly number[], length: number): number {
  let low = 0
  let high = sums.length
  while (high - low > 1) {
    const middle = (low + high) >> 1
    if ((sums[middle] as number) <= length) low = middle
    else high = middle
  }
  return low
}

/**
 * The most value a sheet gives when there is no limit to the copies, and with it a bound where there is one.
 *
 * The dynamic programme over sums of sides of Gilmore and Gomory ("The theory and computation of knapsack functions", Operations Research
 * 14(6), 1966) and Beasley ("Algorithms for unconstrained two-dimensional guillotine cutting", J. Opl. Res. Soc. 36(4), 1985): a
 * rectangle gives what its best single piece does, or what the two halves of a cut do, and only cuts at sums of sides need be tried.
 *
 * Cost: columns × rows × half of both together.
 */
export class Unlimited {
  readonly #kinds: readonly BlockKind[]
  readonly #xs: readonly number[]
  readonly #ys: readonly number[]
  readonly #value: Float64Array
  /** Value still to be had around a block of a size, set into the lower left corner; by column and row of its size. */
  #around: Float64Array | null = null

  private constructor(kinds: readonly BlockKind[], xs: readonly number[], ys: readonly number[]) {
    this.#kinds = kinds
    this.#xs = xs
    this.#ys = ys
    this.#value = new Float64Array(xs.length * ys.length)
  }

  /** Null where the sides have so many sums that it would take too long. */
  static on(kinds: readonly BlockKind[], sheet: { width: number; height: number }): Unlimited | null {
    const ways = kinds.flatMap((kind) => kind.ways)
    const xs = sumsOf(
      ways.map(({ width }) => width),
      sheet.width,
      2_000,
    )
    const ys = sumsOf(
      ways.map(({ height }) => height),
      sheet.height,
      2_000,
    )
    if (!xs || !ys || (xs.length * ys.length * (xs.length + ys.length)) / 2 > mostSums) return null
    const unlimited = new Unlimited(kinds, xs, ys)
    unlimited.#fill()
    return unlimited
  }

  #fill(): void {
    const [xs, ys, value] = [this.#xs, this.#ys, this.#value]
    const rows = ys.length
    for (let column = 1; column < xs.length; column++) {
      for (let row = 1; row < rows; row++) {
        const [width, height] = [xs[column] as number, ys[row] as number]
        let best = 0
        for (const kind of this.#kinds)
          if (kind.value > best && kind.ways.some((way) => way.width <= width && way.height <= height)) best = kind.value
        for (let x = 1; x < column && 2 * (xs[x] as number) <= width; x++) {
          const rest = lastNotAbove(xs, width - (xs[x] as number))
          best = Math.max(best, (value[x * rows + row] as number) + (value[rest * rows + row] as number))
        }
        for (let y = 1; y < row && 2 * (ys[y] as number) <= height; y++) {
          const rest = lastNotAbove(ys, height - (ys[y] as number))
          best = Math.max(best, (value[column * rows + y] as number) + (value[column * rows + rest] as number))
        }
        value[column * rows + row] = best
      }
    }
  }

  valueOf(width: number, height: number): number {
    return this.#value[lastNotAbove(this.#xs, width) * this.#ys.length + lastNotAbove(this.#ys, height)] as number
  }

  tree(width: number, height: number): CutTree {
    const value = this.valueOf(width, height)
    if (value === 0) return free
    for (const kind of this.#kinds) {
      const way = kind.value === value && kind.ways.find((known) => known.width <= width && known.height <= height)
      if (way) return inCorner({ kind: 'wanted', index: kind.index, way }, way, { width, height })
    }
    for (const x of this.#xs)
      if (x > 0 && x < width && this.valueOf(x, height) + this.valueOf(width - x, height) === value)
        return parted('up', x, width, this.tree(x, height), this.tree(width - x, height))
    for (const y of this.#ys)
      if (y > 0 && y < height && this.valueOf(width, y) + this.valueOf(width, height - y) === value)
        return parted('across', y, height, this.tree(width, y), this.tree(width, height - y))
    throw new RangeError(`Unlimited.tree: no cut of ${width} × ${height} gives ${value}`)
  }

  /**
   * At most how much value lies around a block in the corner of the sheet, whatever else it becomes part of: it grows to the right or the head by a
   * whole strip each time, until it is the sheet (Viswanathan and Bagchi, "Best-first search methods for constrained two-dimensional
   * cutting stock problems", Operations Research 41(4), 1993).
   */
  aroundBlock(width: number, height: number, sheet: { width: number; height: number }): number {
    this.#around ??= this.#workOutAround(sheet)
    return this.#around[lastNotAbove(this.#xs, width) * this.#ys.length + lastNotAbove(this.#ys, height)] as number
  }

  #workOutAround(sheet: { width: number; height: number }): Float64Array {
    const [xs, ys] = [this.#xs, this.#ys]
    const rows = ys.length
    const around = new Float64Array(xs.length * rows)
    for (let column = xs.length - 1; column >= 0; column--) {
      for (let row = rows - 1; row >= 0; row--) {
        const [width, height] = [xs[column] as number, ys[row] as number]
        let most = 0
        for (let x = 1; x < xs.length && width + (xs[x] as number) <= sheet.width; x++) {
          const grown = lastNotAbove(xs, width + (xs[x] as number))
          most = Math.max(most, (this.#value[x * rows + row] as number) + (around[grown * rows + row] as number))
        }
        for (let y = 1; y < rows && height + (ys[y] as number) <= sheet.height; y++) {
          const grown = lastNotAbove(ys, height + (ys[y] as number))
          most = Math.max(most, (this.#value[column * rows + y] as number) + (around[column * rows + grown] as number))
        }
        around[column * rows + row] = most
      }
    }
    return around
  }
}
