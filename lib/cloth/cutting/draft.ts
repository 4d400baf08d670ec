import type { CutObjective, CutPlan } from '../cut-plan'
import type { CutProblem } from './cut-problem'
import { type CutTree, countWanted, figuresOf, offcutAreaOf, toNode } from './cut-tree'
import { leastAreaFor, leastCutsFor, sheetArea } from './simple-bounds'

/** How each sheet is cut, in the order of the problem's sheets, and what is known of the best there could be. */
export type Draft = {
  trees: readonly CutTree[]
  valueBound: number
  /** In the objective's own unit. */
  bound: number
  isProved: boolean
}

type Figures = Pick<CutPlan, 'value' | 'cutCount' | 'wasteUm2' | 'largestOffcutsUm2'>

export function figuresOfDraft(problem: CutProblem, trees: readonly CutTree[]): Figures {
  const figures: Figures = { value: 0, cutCount: 0, wasteUm2: 0, largestOffcutsUm2: 0 }
  for (const [at, { width, height }] of problem.sheets.entries()) {
    const tree = trees[at] as CutTree
    const counts = countWanted(tree, [])
    if (counts.length === 0) {
      figures.largestOffcutsUm2 += offcutAreaOf(width, height, problem)
      continue
    }
    counts.forEach((many, index) => {
      figures.value += many * (problem.wanted[index]?.value ?? 0)
    })
    const { cuts, waste, largestOffcut } = figuresOf(tree, width, height, problem)
    figures.cutCount += cuts
    figures.wasteUm2 += waste
    figures.largestOffcutsUm2 += largestOffcut
  }
  return figures
}

/** More value first, then the objective, then what else one would like. */
export function isBetter(
  problem: CutProblem,
  a: Pick<Draft, 'trees'>,
  b: Pick<Draft, 'trees'>,
  objective: CutObjective,
): boolean {
  const [one, other] = [figuresOfDraft(problem, a.trees), figuresOfDraft(problem, b.trees)]
  if (one.value !== other.value) return one.value > other.value
  const lessWaste = other.wasteUm2 - one.wasteUm2
  const fewerCuts = other.cutCount - one.cutCount
  switch (objective) {
    case 'least waste':
      return (lessWaste || fewerCuts) > 0
    case 'fewest cuts':
      return (fewerCuts || lessWaste) > 0
    case 'largest offcut':
    case 'most value':
      return (one.largestOffcutsUm2 - other.largestOffcutsUm2 || lessWaste || fewerCuts) > 0
  }
}

/** The draft with its bound no worse than what it has reached; reached, it is proved. */
export function withReached(problem: CutProblem, draft: Draft, objective: CutObjective): Draft {
  const { value, wasteUm2, cutCount, largestOffcutsUm2 } = figuresOfDraft(problem, draft.trees)
  const { valueBound, bound } = draft
  const isAll = value >= valueBound
  switch (objective) {
    case 'most value':
      return { ...draft, bound: valueBound, isProved: draft.isProved || isAll }
    case 'largest offcut': {
      // Whoever cuts as much keeps no more than the rest.
      const most = Math.max(largestOffcutsUm2, Math.min(bound, sheetArea(problem) - leastAreaFor(problem, value)))
      return { ...draft, bound: most, isProved: draft.isProved || (isAll && largestOffcutsUm2 >= most) }
    }
    case 'least waste':
      return { ...draft, bound: Math.min(bound, wasteUm2), isProved: draft.isProved || (isAll && wasteUm2 <= bound) }
    case 'fewest cuts': {
      const least = Math.min(cutCount, Math.max(bound, leastCutsFor(problem, value)))
      return { ...draft, bound: least, isProved: draft.isProved || (isAll && cutCount <= least) }
    }
  }
}

export function planOf(problem: CutProblem, { trees, ...known }: Draft): CutPlan {
  const copies = problem.wanted.map(() => 0)
  const nextCopy = (index: number) => {
    const copy = (copies[index] as number) + 1
    copies[index] = copy
    return copy
  }
  const layouts = problem.sheets.flatMap((sheet, at) => {
    const tree = trees[at] as CutTree
    if (countWanted(tree, []).length === 0) return []
    return [
      { pieceId: sheet.id, root: toNode(tree, { x: 0, y: 0, width: sheet.width, height: sheet.height }, problem, nextCopy) },
    ]
  })
  const leftOut = problem.wanted.flatMap(({ id, copies: wanted }, index) =>
    Array.from({ length: wanted - (copies[index] as number) }, () => ({ wishId: id, copy: nextCopy(index) })),
  )
  return { layouts, leftOut, ...figuresOfDraft(problem, trees), ...known }
}
