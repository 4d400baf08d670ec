import type { CutProblem } from './cut-problem'
import { type CutTree, free, offcutAreaOf } from './cut-tree'
import { heightAt, never, widthAt } from './staircase'
import type { SubsetBoxes } from './subset-boxes'

/** What a tree is measured by; less is better. */
export type TreeCost = 'least waste' | 'fewest cuts'

/** More than all the cloth of one piece, in square micrometres: ten square metres are 1e13. Whole numbers are exact to 9e15. */
const cutWeight = 2 ** 46

/** What one cut adds; of equal waste, fewer cuts are better. A power of two, so that sums stay exact. */
export const cutCostOf = (cost: TreeCost): number => (cost === 'fewest cuts' ? cutWeight : 1 / 1024)

type Found = { cost: number; tree: CutTree }

/**
 * The tree of least cost for a choice on a rectangle, among those in which every cut takes off a part of the choice at the least width
 * (or height) that part needs there. That is how one cuts at a table, along the edge of something wanted; where a wider strip would
 * turn two slivers into one offcut worth keeping, a better tree can exist, so the cost is a good one, not proved the least.
 *
 * Looks at most at `budget` cuts; beyond it, the first that fits is taken.
 */
export class TightCuts {
  readonly #boxes: SubsetBoxes
  readonly #rules: Pick<CutProblem, 'gap' | 'leastOffcut'>
  readonly #cost: TreeCost
  readonly #known = new Map<string, Found>()
  #budget: number

  constructor(boxes: SubsetBoxes, rules: Pick<CutProblem, 'gap' | 'leastOffcut'>, cost: TreeCost, budget: number) {
    this.#boxes = boxes
    this.#rules = rules
    this.#cost = cost
    this.#budget = budget
  }

  /** Nothing was left out for want of budget. */
  get isThorough(): boolean {
    return this.#budget > 0
  }

  find(choice: number, width: number, height: number): Found {
    if (choice === 0) return { cost: this.#leftover(width, height), tree: free }
    const key = `${choice} ${width} ${height}`
    const known = this.#known.get(key)
    if (known) return known
    const found = this.#budget > 0 ? this.#search(choice, width, height) : this.#first(choice, width, height)
    this.#known.set(key, found)
    return found
  }

  #first(choice: number, width: number, height: number): Found {
    const tree = this.#boxes.tree(choice, width, height)
    return { cost: this.#costOf(tree, width, height), tree }
  }

  #costOf(tree: CutTree, width: number, height: number): number {
    if (tree.kind === 'wanted') return 0
    if (tree.kind === 'free') return this.#leftover(width, height)
    const isUp = tree.direction === 'up'
    return (
      this.#cutCost +
      this.#costOf(tree.first, isUp ? tree.at : width, isUp ? height : tree.at) +
      this.#costOf(tree.second, isUp ? width - tree.at : width, isUp ? height : height - tree.at)
    )
  }

  get #cutCost(): number {
    return cutCostOf(this.#cost)
  }

  #leftover(width: number, height: number): number {
    const { gap } = this.#rules
    const area = Math.max(0, width - gap) * Math.max(0, height - gap)
    return offcutAreaOf(width, height, this.#rules) > 0 ? 0 : area
  }

  #search(choice: number, width: number, height: number): Found {
    const boxes = this.#boxes
    const single = boxes.single(choice)
    let best: Found = { cost: Number.POSITIVE_INFINITY, tree: free }
    if (single) {
      for (const way of single.ways)
        if (way.width === width && way.height === height) return { cost: 0, tree: { kind: 'wanted', index: single.kind, way } }
    }
    const consider = (part: number, direction: 'up' | 'across', at: number) => {
      this.#budget--
      const isUp = direction === 'up'
      const first = this.find(part, isUp ? at : width, isUp ? height : at)
      let cost = this.#cutCost + first.cost
      if (cost >= best.cost) return
      const second = this.find(choice - part, isUp ? width - at : width, isUp ? height : height - at)
      cost += second.cost
      if (cost < best.cost) best = { cost, tree: { kind: 'cut', direction, at, first: first.tree, second: second.tree } }
    }
    for (const part of boxes.within(choice)) {
      if (part === 0) continue
      const rest = choice - part
      const ways = boxes.single(part)?.ways
      const widths = ways
        ? ways.filter((way) => way.height <= height).map((way) => way.width)
        : [widthAt(boxes.stairs(part), height)]
      for (const at of widths) if (at < width && at !== never && boxes.fits(rest, width - at, height)) consider(part, 'up', at)
      const heights = ways
        ? ways.filter((way) => way.width <= width).map((way) => way.height)
        : [heightAt(boxes.stairs(part), width)]
      for (const at of heights)
        if (at < height && at !== never && boxes.fits(rest, width, height - at)) consider(part, 'across', at)
      if (best.cost <= this.#cutCost) break
    }
    return best
  }
}
