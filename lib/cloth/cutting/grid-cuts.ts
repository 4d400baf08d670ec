import type { CutProblem, Sheet, Way } from './cut-problem'
import { type CutTree, free, offcutAreaOf } from './cut-tree'
import { heightAt, widthAt } from './staircase'
import type { SubsetBoxes } from './subset-boxes'
import { cutCostOf, type TreeCost } from './tight-cuts'

const greatestCommonDivisor = (a: number, b: number): number => (b === 0 ? a : greatestCommonDivisor(b, a % b))

/** The coarsest grid on which every side lies, and with it every cut worth making. */
export function gridOf(ways: readonly Way[], sheets: readonly Sheet[], rules: Pick<CutProblem, 'gap' | 'leastOffcut'>): number {
  return [...ways, ...sheets].reduce(
    (divisor, { width, height }) => greatestCommonDivisor(greatestCommonDivisor(divisor, width), height),
    greatestCommonDivisor(rules.gap, rules.leastOffcut),
  )
}

/** About how many sums `GridCuts` would do. */
export function gridWork(divisions: number, sheet: { width: number; height: number }, grid: number): number {
  const [columns, rows] = [sheet.width / grid, sheet.height / grid]
  return (divisions * columns * rows * (columns + rows)) / 4
}

const yieldEvery = 2_000_000

/**
 * The least cost at which every choice can be cut from a rectangle of every size, exactly: every division of the choice and every place
 * for the cut is tried. What is over in a rectangle can be moved from one side of a cut to the other without a change of the total, up to where
 * some wanted side, or some leftover that is just worth keeping, sets a stop: sums of those sides and of the sheet's, all on the grid.
 *
 * Cost: for every division, every rectangle times the places for a cut: about 60 million sums for six pieces on a sheet of 36 × 54
 * grid lines, nine times as many for two pieces more.
 */
export class GridCuts {
  readonly #boxes: SubsetBoxes
  readonly #rules: Pick<CutProblem, 'gap' | 'leastOffcut'>
  readonly #grid: number
  readonly #columns: number
  readonly #rows: number
  readonly #cutCost: number
  /** Per choice, by row and then column: rows × columns from 0. */
  readonly #costs: Float64Array[] = []
  readonly #leastColumns: Int32Array[] = []
  readonly #leastRows: Int32Array[] = []

  constructor(
    boxes: SubsetBoxes,
    sheet: { width: number; height: number },
    rules: Pick<CutProblem, 'gap' | 'leastOffcut'>,
    cost: TreeCost,
    grid: number,
  ) {
    this.#boxes = boxes
    this.#rules = rules
    this.#grid = grid
    this.#columns = sheet.width / grid + 1
    this.#rows = sheet.height / grid + 1
    this.#cutCost = cutCostOf(cost)
  }

  *build(most: number = this.#boxes.choiceCount - 1): Generator<void> {
    const boxes = this.#boxes
    const [columns, rows, grid] = [this.#columns, this.#rows, this.#grid]
    let done = 0
    for (const choice of boxes.within(most)) {
      const costs = new Float64Array(rows * columns).fill(Number.POSITIVE_INFINITY)
      this.#costs[choice] = costs
      if (choice === 0) {
        for (let row = 0; row < rows; row++)
          for (let column = 0; column < columns; column++)
            costs[row * columns + column] = this.#leftover(column * grid, row * grid)
        continue
      }
      for (const way of boxes.single(choice)?.ways ?? []) {
        const [column, row] = [way.width / grid, way.height / grid]
        if (column < columns && row < rows) costs[row * columns + column] = 0
      }
      const stairs = boxes.stairs(choice)
      const leastColumns = Int32Array.from({ length: rows }, (_, row) => Math.min(widthAt(stairs, row * grid) / grid, columns))
      const leastRows = Int32Array.from({ length: columns }, (_, column) =>
        Math.min(heightAt(stairs, column * grid) / grid, rows),
      )
      this.#leastColumns[choice] = leastColumns
      this.#leastRows[choice] = leastRows
      const divisions = boxes.within(choice).filter((one) => one <= choice - one)
      // A rectangle is built of smaller ones: rows and columns rise. One in which the choice does not fit stays as it is.
      for (let row = 1; row < rows; row++) {
        for (let column = Math.max(1, leastColumns[row] as number); column < columns; column++) {
          const at = row * columns + column
          const start = row * columns
          let least = costs[at] as number
          for (const one of divisions) {
            const other = choice - one
            const [a, b] = [this.#costs[one] as Float64Array, this.#costs[other] as Float64Array]
            const [firstColumn, lastColumn] = [this.#leastColumn(one, row), column - this.#leastColumn(other, row)]
            for (let x = firstColumn; x <= lastColumn; x++) {
              const sum = (a[start + x] as number) + (b[at - x] as number) + this.#cutCost
              if (sum < least) least = sum
            }
            const [firstRow, lastRow] = [this.#leastRow(one, column), row - this.#leastRow(other, column)]
            for (let y = firstRow; y <= lastRow; y++) {
              const sum = (a[y * columns + column] as number) + (b[at - y * columns] as number) + this.#cutCost
              if (sum < least) least = sum
            }
            done += 2 + Math.max(0, lastColumn - firstColumn) + Math.max(0, lastRow - firstRow)
          }
          costs[at] = least
          if (done >= yieldEvery) {
            done = 0
            yield
          }
        }
      }
    }
  }

  /** Grid lines that a choice needs at least; a leftover needs one. */
  #leastColumn(choice: number, row: number): number {
    return choice === 0 ? 1 : ((this.#leastColumns[choice] as Int32Array)[row] as number)
  }

  #leastRow(choice: number, column: number): number {
    return choice === 0 ? 1 : ((this.#leastRows[choice] as Int32Array)[column] as number)
  }

  /** Infinite when the choice does not fit the rectangle. */
  costOf(choice: number, width: number, height: number): number {
    return (this.#costs[choice] as Float64Array)[(height / this.#grid) * this.#columns + width / this.#grid] as number
  }

  /** @throws {RangeError} if the choice does not fit. */
  tree(choice: number, width: number, height: number): CutTree {
    const cost = this.costOf(choice, width, height)
    if (cost === Number.POSITIVE_INFINITY)
      throw new RangeError(`GridCuts.tree: choice ${choice} does not fit ${width} × ${height}`)
    if (choice === 0) return free
    const single = this.#boxes.single(choice)
    const way = single?.ways.find((known) => known.width === width && known.height === height)
    if (single && way) return { kind: 'wanted', index: single.kind, way }
    // What is wanted first, so that leftovers lie at the right and the head.
    for (const part of this.#boxes.within(choice).reverse()) {
      const rest = choice - part
      for (let at = this.#grid; at < width; at += this.#grid)
        if (this.costOf(part, at, height) + this.costOf(rest, width - at, height) + this.#cutCost === cost)
          return {
            kind: 'cut',
            direction: 'up',
            at,
            first: this.tree(part, at, height),
            second: this.tree(rest, width - at, height),
          }
      for (let at = this.#grid; at < height; at += this.#grid)
        if (this.costOf(part, width, at) + this.costOf(rest, width, height - at) + this.#cutCost === cost)
          return {
            kind: 'cut',
            direction: 'across',
            at,
            first: this.tree(part, width, at),
            second: this.tree(rest, width, height - at),
          }
    }
    throw new RangeError(`GridCuts.tree: no cut of ${width} × ${height} costs ${cost}`)
  }

  #leftover(width: number, height: number): number {
    const { gap } = this.#rules
    return offcutAreaOf(width, height, this.#rules) > 0 ? 0 : Math.max(0, width - gap) * Math.max(0, height - gap)
  }
}
