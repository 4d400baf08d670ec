import type { SubsetBoxes } from './subset-boxes'

const yieldEvery = 50_000

/** What cutting a choice from a sheet costs; infinite where it does not fit. The empty choice costs what leaving the sheet whole does. */
export type SheetCost = (choice: number) => number

/**
 * Share choices out among sheets at the least total cost, exactly: for every choice, the best way to cut all of it from the sheets
 * together. Cost: every division of every choice, once a sheet.
 */
export class ShareOut {
  readonly #boxes: SubsetBoxes
  readonly #sheets: readonly SheetCost[]
  /** Per sheet, by choice: the least cost on it and those before it. */
  readonly #totals: Float64Array[] = []
  readonly #parts: Int32Array[] = []

  constructor(boxes: SubsetBoxes, sheets: readonly SheetCost[]) {
    this.#boxes = boxes
    this.#sheets = sheets
  }

  *build(): Generator<void> {
    const boxes = this.#boxes
    let looked = 0
    let before: Float64Array | null = null
    for (const costOf of this.#sheets) {
      const costs = Float64Array.from({ length: boxes.choiceCount }, (_, choice) => costOf(choice))
      yield
      const totals = new Float64Array(boxes.choiceCount).fill(Number.POSITIVE_INFINITY)
      const parts = new Int32Array(boxes.choiceCount)
      for (let choice = 0; choice < boxes.choiceCount; choice++) {
        if (before === null) {
          totals[choice] = costs[choice] as number
          parts[choice] = choice
          continue
        }
        for (const part of boxes.within(choice)) {
          const total = (before[choice - part] as number) + (costs[part] as number)
          if (total < (totals[choice] as number)) {
            totals[choice] = total
            parts[choice] = part
          }
          if (++looked % yieldEvery === 0) yield
        }
      }
      this.#totals.push(totals)
      this.#parts.push(parts)
      before = totals
    }
  }

  /** Infinite when the sheets together do not take it. */
  totalOf(choice: number): number {
    return this.#totals.at(-1)?.[choice] ?? Number.POSITIVE_INFINITY
  }

  /** What is cut from each sheet. */
  partsOf(choice: number): number[] {
    const shares: number[] = []
    let rest = choice
    for (let sheet = this.#sheets.length - 1; sheet >= 0; sheet--) {
      const part = this.#parts[sheet]?.[rest] as number
      shares.unshift(part)
      rest -= part
    }
    return shares
  }
}
