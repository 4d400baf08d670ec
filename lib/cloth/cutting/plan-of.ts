import type { CutPlan, CutRequest } from '../cut-plan'
import type { CutProblem } from './cut-problem'
import { type CutTree, countWanted, figuresOf, offcutAreaOf, toNode } from './cut-tree'

/** How each sheet is cut, in the order of the problem's sheets. */
export type SheetTrees = readonly CutTree[]

/** A plan's figures in its objective's own unit, what is cut first: more value, then the objective. Positive when `a` is better. */
export function comparePlans(a: CutPlan, b: CutPlan, objective: CutRequest['objective']): number {
  if (a.value !== b.value) return a.value - b.value
  switch (objective) {
    case 'least waste':
      return b.wasteUm2 - a.wasteUm2 || b.cutCount - a.cutCount
    case 'fewest cuts':
      return b.cutCount - a.cutCount || b.wasteUm2 - a.wasteUm2
    case 'largest offcut':
    case 'most value':
      return a.largestOffcutsUm2 - b.largestOffcutsUm2 || b.wasteUm2 - a.wasteUm2 || b.cutCount - a.cutCount
  }
}

/** What is known of the best there could be. */
export type Bounds = { valueBound: number; bound: number; isProved: boolean }

export function planOf(problem: CutProblem, trees: SheetTrees, bounds: Bounds): CutPlan {
  const copies = problem.wanted.map(() => 0)
  const nextCopy = (index: number) => {
    copies[index] = (copies[index] ?? 0) + 1
    return copies[index]
  }
  const layouts: CutPlan['layouts'] = []
  let value = 0
  let cutCount = 0
  let wasteUm2 = 0
  let largestOffcutsUm2 = 0
  problem.sheets.forEach((sheet, at) => {
    const tree = trees[at] as CutTree
    const counts = countWanted(tree, [])
    if (counts.length === 0) {
      largestOffcutsUm2 += offcutAreaOf(sheet.width, sheet.height, problem)
      return
    }
    counts.forEach((many, index) => {
      value += many * (problem.wanted[index]?.value ?? 0)
    })
    const figures = figuresOf(tree, sheet.width, sheet.height, problem)
    cutCount += figures.cuts
    wasteUm2 += figures.waste
    largestOffcutsUm2 += figures.largestOffcut
    layouts.push({
      pieceId: sheet.id,
      root: toNode(tree, { x: 0, y: 0, width: sheet.width, height: sheet.height }, problem, nextCopy),
    })
  })
  const leftOut = problem.wanted.flatMap(({ id, copies: wanted }, index) =>
    Array.from({ length: wanted - (copies[index] as number) }, (_, more) => ({
      wishId: id,
      copy: (copies[index] as number) + more + 1,
    })),
  )
  return { layouts, leftOut, value, cutCount, wasteUm2, largestOffcutsUm2, ...bounds }
}
