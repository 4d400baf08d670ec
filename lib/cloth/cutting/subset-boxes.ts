import type { Way } from './cut-problem'
import { type CutDirection, type CutTree, free, parted } from './cut-tree'
import { heightAt, never, type Staircase, StaircaseBuilder, widthAt } from './staircase'

type Kind = { copies: number; ways: readonly Way[] }

/** Divisions looked at between two yields: a few milliseconds. */
const yieldEvery = 2_000

/** How many choices of the kinds there are, and how many ways to divide each of them in two, all added up. */
export function countChoices(kinds: readonly { copies: number }[]): { choices: number; divisions: number } {
  let choices = 1
  let divisions = 1
  for (const { copies } of kinds) {
    choices *= copies + 1
    divisions *= ((copies + 1) * (copies + 2)) / 2
  }
  return { choices, divisions }
}

/**
 * For every choice among the wanted pieces, the least boxes it can be cut from with cuts from edge to edge, to any depth. Exact: a
 * choice is cut by one cut into two smaller choices, each in its own least box, and every division is tried.
 *
 * A choice is a number in mixed radix, a digit for each kind: how many of it. Choices that go into no box within the limits have an
 * empty staircase. Beasley's exact recursion (Operations Research 33(1), 1985) asks the same of a fixed sheet, for any number of
 * copies; here copies are limited and the sheet is left open, so that many pieces of cloth are answered at once.
 *
 * Cost: every division of every choice once, each as long as the two staircases; twelve different pieces are 265,721 divisions.
 */
export class SubsetBoxes {
  readonly choiceCount: number
  readonly #kinds: readonly Kind[]
  /** What one of each kind adds to a choice. */
  readonly #unit: number[] = []
  readonly #stairs: Staircase[]
  readonly #limit: { width: number; height: number }

  constructor(kinds: readonly Kind[], limit: { width: number; height: number }) {
    this.#kinds = kinds
    this.#limit = limit
    let unit = 1
    for (const { copies } of kinds) {
      this.#unit.push(unit)
      unit *= copies + 1
    }
    this.choiceCount = unit
    this.#stairs = new Array<Staircase>(unit)
  }

  /** The choice of one more of a kind is so much larger. */
  unitOf(kind: number): number {
    return this.#unit[kind] as number
  }

  /** How many of a kind a choice holds. */
  copiesIn(choice: number, kind: number): number {
    return Math.floor(choice / this.unitOf(kind)) % ((this.#kinds[kind] as Kind).copies + 1)
  }

  stairs(choice: number): Staircase {
    return this.#stairs[choice] as Staircase
  }

  fits(choice: number, width: number, height: number): boolean {
    return choice === 0 || widthAt(this.stairs(choice), height) <= width
  }

  /** All smaller choices within a choice, itself and the empty one included; smaller numbers first. */
  within(choice: number): number[] {
    let list = [0]
    for (let kind = 0; kind < this.#kinds.length; kind++) {
      const copies = this.copiesIn(choice, kind)
      if (copies === 0) continue
      const unit = this.unitOf(kind)
      const longer: number[] = []
      for (let many = 0; many <= copies; many++) for (const smaller of list) longer.push(smaller + many * unit)
      list = longer
    }
    return list
  }

  /** Work all of it out; yields between, so that the caller can look at the clock. */
  *build(): Generator<void> {
    const { width: mostWidth, height: mostHeight } = this.#limit
    const builder = new StaircaseBuilder()
    this.#stairs[0] = { heights: new Int32Array(0), widths: new Int32Array(0) }
    let looked = 0
    for (let choice = 1; choice < this.choiceCount; choice++) {
      builder.clear()
      const kind = this.#unit.indexOf(choice)
      if (kind >= 0) {
        for (const { width, height } of (this.#kinds[kind] as Kind).ways)
          if (width <= mostWidth && height <= mostHeight) builder.addBox(width, height)
        this.#stairs[choice] = builder.take()
        continue
      }
      for (const one of this.within(choice)) {
        const other = choice - one
        if (one === 0 || one > other) continue
        if (++looked % yieldEvery === 0) yield
        const [a, b] = [this.stairs(one), this.stairs(other)]
        const [aSize, bSize] = [a.widths.length, b.widths.length]
        if (aSize === 0 || bSize === 0) continue
        if ((a.widths[aSize - 1] as number) + (b.widths[bSize - 1] as number) <= mostWidth) builder.addBeside(a, b, mostWidth)
        if ((a.heights[0] as number) + (b.heights[0] as number) <= mostHeight) builder.addAbove(a, b, mostHeight)
      }
      this.#stairs[choice] = builder.take()
    }
  }

  /** Ways of a kind of which one is this choice; null when it is of several. */
  single(choice: number): { kind: number; ways: readonly Way[] } | null {
    const kind = this.#unit.indexOf(choice)
    return kind < 0 ? null : { kind, ways: (this.#kinds[kind] as Kind).ways }
  }

  /**
   * How a choice is cut from a rectangle in which it fits, what is over being left at the right and the head of its box.
   *
   * @throws {RangeError} if it does not fit.
   */
  tree(choice: number, width: number, height: number): CutTree {
    if (choice === 0) return free
    const stairs = this.stairs(choice)
    const least = widthAt(stairs, height)
    if (least > width) throw new RangeError(`SubsetBoxes.tree: choice ${choice} does not fit ${width} × ${height}`)
    // Of the boxes within the rectangle, the one that leaves the larger strip along a whole side.
    const low = heightAt(stairs, width)
    return (width - least) * height >= (height - low) * width
      ? parted('up', least, width, this.#boxed(choice, least, height), free)
      : parted('across', low, height, this.#boxed(choice, width, low), free)
  }

  #boxed(choice: number, width: number, height: number): CutTree {
    const single = this.single(choice)
    if (single) {
      const way = single.ways.find((known) => known.width <= width && known.height <= height) as Way
      const leaf: CutTree = { kind: 'wanted', index: single.kind, way }
      return parted('up', way.width, width, parted('across', way.height, height, leaf, free), free)
    }
    const cut = this.division(choice, width, height)
    const isUp = cut.direction === 'up'
    return parted(
      cut.direction,
      cut.at,
      isUp ? width : height,
      this.tree(cut.first, isUp ? cut.at : width, isUp ? height : cut.at),
      this.tree(choice - cut.first, isUp ? width - cut.at : width, isUp ? height : height - cut.at),
    )
  }

  /** A cut that divides a choice of several, so that both halves fit. */
  division(choice: number, width: number, height: number): { direction: CutDirection; at: number; first: number } {
    for (const first of this.within(choice)) {
      const second = choice - first
      if (first === 0 || second === 0) continue
      const wide = widthAt(this.stairs(first), height)
      if (wide < width && widthAt(this.stairs(second), height) <= width - wide) return { direction: 'up', at: wide, first }
      const high = heightAt(this.stairs(first), width)
      if (high < height && high !== never && heightAt(this.stairs(second), width) <= height - high)
        return { direction: 'across', at: high, first }
    }
    throw new RangeError(`SubsetBoxes.division: choice ${choice} does not fit ${width} × ${height}`)
  }
}
