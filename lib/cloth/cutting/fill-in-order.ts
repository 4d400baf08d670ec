import type { BlockKind } from './blocks'
import type { CutProblem, Sheet } from './cut-problem'
import { type CutTree, countWanted, free } from './cut-tree'
import { type Filled, fillSheet } from './fill-sheet'

export type FillOrder = {
  /** Sheets to empty and fill again, by number, in this order. */
  order: readonly number[]
  kept: readonly CutTree[]
  blocks: number
  /** `upright` tries each wanted piece only the first way it may lie: fewer blocks, and at times a better fill. */
  waysTried: 'all' | 'upright'
}

/** Small sheets first, large ones first, and without each of them in turn. */
export function ordersOf(sheets: readonly Sheet[]): number[][] {
  const rising = bySize(sheets, 1)
  return [rising, bySize(sheets, -1), ...rising.map((left) => rising.filter((at) => at !== left))]
}

const bySize = (sheets: readonly Sheet[], direction: 1 | -1): number[] =>
  sheets
    .map((_, at) => at)
    .sort((a, b) => {
      const [one, other] = [sheets[a] as Sheet, sheets[b] as Sheet]
      return direction * (one.width * one.height - other.width * other.height) || a - b
    })

/** What of the wanted is not yet cut, and lies on the sheet's cloth. */
export const kindsLeft = (problem: CutProblem, sheet: Sheet, counts: readonly number[]): BlockKind[] =>
  problem.wanted.flatMap(({ copies, value }, index) => {
    const ways = problem.cloths[sheet.clothIndex]?.ways[index] ?? []
    const left = copies - (counts[index] ?? 0)
    return left > 0 && ways.length > 0 ? [{ index, copies: left, value, ways }] : []
  })

/**
 * Fill sheets one after the other, each with as much value as can be found of what is then left; those not named stay as they are. Yields
 * null every so often.
 */
export function* fillInOrder(problem: CutProblem, { order, kept, blocks, waysTried }: FillOrder): Generator<null, CutTree[]> {
  const trees = kept.map((tree, at) => (order.includes(at) ? free : tree))
  const counts = trees.reduce<number[]>((cut, tree) => countWanted(tree, cut), [])
  for (const at of order) {
    const sheet = problem.sheets[at] as Sheet
    let best: Filled | null = null
    const kinds = kindsLeft(problem, sheet, counts)
    const tried = waysTried === 'all' ? kinds : kinds.map((kind) => ({ ...kind, ways: kind.ways.slice(0, 1) }))
    for (const filled of fillSheet(tried, sheet, blocks)) {
      if (filled) best = filled
      else yield null
    }
    if (!best) continue
    const tree = best.tree()
    trees[at] = tree
    countWanted(tree, counts)
  }
  return trees
}
