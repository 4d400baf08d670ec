import type { CutNode } from '../cut-plan'
import type { CutProblem, Way } from './cut-problem'

/** Straight through: `up` from foot to head, parting left from right; `across` from side to side, parting the foot from the head. */
export type CutDirection = 'up' | 'across'

/** How a rectangle is cut; its size is the parent's to know. `at` is the first half's size across the cut, its gap included. */
export type CutTree =
  | { kind: 'free' }
  | { kind: 'wanted'; index: number; way: Way }
  | { kind: 'cut'; direction: CutDirection; at: number; first: CutTree; second: CutTree }

export const free: CutTree = { kind: 'free' }

/** Part a rectangle at `at`; no cut where the first half takes all of it. */
export function parted(direction: CutDirection, at: number, whole: number, first: CutTree, second: CutTree): CutTree {
  return at === whole ? first : { kind: 'cut', direction, at, first, second }
}

/** A box in the lower left corner of a rectangle that may be larger. The side with the larger leftover is cut first. */
export function inCorner(
  box: CutTree,
  { width: wide, height: high }: { width: number; height: number },
  { width, height }: { width: number; height: number },
): CutTree {
  return (width - wide) * height >= (height - high) * width
    ? parted('up', wide, width, parted('across', high, height, box, free), free)
    : parted('across', high, height, parted('up', wide, width, box, free), free)
}

/** How many of each wanted piece a tree cuts, added to `counts`. */
export function countWanted(tree: CutTree, counts: number[]): number[] {
  if (tree.kind === 'wanted') counts[tree.index] = (counts[tree.index] ?? 0) + 1
  else if (tree.kind === 'cut') {
    countWanted(tree.first, counts)
    countWanted(tree.second, counts)
  }
  return counts
}

/** The tree with its wanted pieces numbered otherwise: the first is now `indexes[0]`. */
export function renumbered(tree: CutTree, indexes: readonly number[]): CutTree {
  if (tree.kind === 'free') return tree
  if (tree.kind === 'wanted') return { ...tree, index: indexes[tree.index] as number }
  return { ...tree, first: renumbered(tree.first, indexes), second: renumbered(tree.second, indexes) }
}

/** What a tree comes to on a rectangle. Areas without the gaps. */
export type TreeFigures = { cuts: number; waste: number; largestOffcut: number }

/** The area of a leftover, 0 when it is too small to keep; sizes with their gap. */
export function offcutAreaOf(
  width: number,
  height: number,
  { gap, leastOffcut }: Pick<CutProblem, 'gap' | 'leastOffcut'>,
): number {
  const [wide, high] = [width - gap, height - gap]
  return wide > 0 && high > 0 && wide >= leastOffcut && high >= leastOffcut ? wide * high : 0
}

export function figuresOf(
  tree: CutTree,
  width: number,
  height: number,
  rules: Pick<CutProblem, 'gap' | 'leastOffcut'>,
): TreeFigures {
  if (tree.kind === 'wanted') return { cuts: 0, waste: 0, largestOffcut: 0 }
  if (tree.kind === 'free') {
    const kept = offcutAreaOf(width, height, rules)
    const all = Math.max(0, width - rules.gap) * Math.max(0, height - rules.gap)
    return { cuts: 0, waste: kept > 0 ? 0 : all, largestOffcut: kept }
  }
  const isUp = tree.direction === 'up'
  const one = figuresOf(tree.first, isUp ? tree.at : width, isUp ? height : tree.at, rules)
  const other = figuresOf(tree.second, isUp ? width - tree.at : width, isUp ? height : height - tree.at, rules)
  return {
    cuts: 1 + one.cuts + other.cuts,
    waste: one.waste + other.waste,
    largestOffcut: Math.max(one.largestOffcut, other.largestOffcut),
  }
}

/**
 * A tree as it is drawn and cut: boxes from the lower left corner, gaps taken off again, copies numbered from `nextCopy`.
 */
export function toNode(
  tree: CutTree,
  box: { x: number; y: number; width: number; height: number },
  problem: CutProblem,
  nextCopy: (index: number) => number,
): CutNode {
  const { gap } = problem
  const { x, y, width, height } = box
  const real = { xUm: x, yUm: y, widthUm: width - gap, heightUm: height - gap }
  if (tree.kind === 'wanted')
    return {
      ...real,
      kind: 'wanted',
      wishId: problem.wanted[tree.index]?.id ?? '',
      copy: nextCopy(tree.index),
      isTurned: tree.way.isTurned,
    }
  if (tree.kind === 'free') return { ...real, kind: offcutAreaOf(width, height, problem) > 0 ? 'offcut' : 'waste' }
  const isUp = tree.direction === 'up'
  const rest = isUp ? width - tree.at : height - tree.at
  const first = toNode(tree.first, { x, y, width: isUp ? tree.at : width, height: isUp ? height : tree.at }, problem, nextCopy)
  const second =
    rest <= gap
      ? null
      : toNode(
          tree.second,
          isUp ? { x: x + tree.at, y, width: rest, height } : { x, y: y + tree.at, width, height: rest },
          problem,
          nextCopy,
        )
  return { ...real, kind: 'cut', way: tree.direction, atUm: tree.at - gap, first, second }
}
