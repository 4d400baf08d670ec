import type { CutPlan, CutRequest } from '../cut-plan'
import type { CutProblem, Sheet } from './cut-problem'
import { type CutTree, free } from './cut-tree'
import { GridCuts, gridOf, gridWork } from './grid-cuts'
import { KeptCorners } from './kept-corner'
import { type Bounds, comparePlans, planOf } from './plan-of'
import { ShareOut } from './share-out'
import { countChoices, SubsetBoxes } from './subset-boxes'
import { TightCuts } from './tight-cuts'

/** As much as is worked through in some seconds. */
const mostDivisions = 6_000_000
const mostChoices = 20_000
const mostGridWork = 4e9

/** Cuts looked at for the inside of a strip, and, step by step, where no grid is coarse enough. */
const stripBudget = 3_000
const budgets = [3_000, 60_000, 1_500_000]

/** Whether every choice can be gone through. */
export function isSmall({ wanted, sheets, cloths }: CutProblem): boolean {
  const { choices, divisions } = countChoices(wanted)
  return choices <= mostChoices && divisions * Math.max(cloths.length, sheets.length / 4) <= mostDivisions
}

type OnSheet = { sheet: Sheet; boxes: SubsetBoxes; corners: KeptCorners }

/**
 * Every choice of the wanted pieces on every sheet: what can be cut, most value and largest offcuts are proved. Least waste and fewest
 * cuts are proved where the sides lie on a grid coarse enough to try every cut, or where a plan reaches what could at best be.
 */
export function* searchSmall(problem: CutProblem, objective: CutRequest['objective']): Generator<CutPlan | null, CutPlan> {
  const { wanted, sheets } = problem
  const cloths: SubsetBoxes[] = []
  for (const [clothIndex, { ways }] of problem.cloths.entries()) {
    const ofCloth = sheets.filter((sheet) => sheet.clothIndex === clothIndex)
    const limit = {
      width: Math.max(...ofCloth.map(({ width }) => width)),
      height: Math.max(...ofCloth.map(({ height }) => height)),
    }
    const boxes = new SubsetBoxes(
      wanted.map(({ copies }, index) => ({ copies, ways: ways[index] ?? [] })),
      limit,
    )
    for (const _ of boxes.build()) yield null
    cloths.push(boxes)
  }
  const onSheets: OnSheet[] = []
  for (const sheet of sheets) {
    const boxes = cloths[sheet.clothIndex] as SubsetBoxes
    const corners = new KeptCorners(boxes, sheet, problem)
    for (const _ of corners.build()) yield null
    onSheets.push({ sheet, boxes, corners })
  }
  const boxes = cloths[0] as SubsetBoxes

  const byCorners = new ShareOut(
    boxes,
    onSheets.map(({ corners }) => (choice) => -(corners.areaBeside(choice) ?? Number.NEGATIVE_INFINITY)),
  )
  for (const _ of byCorners.build()) yield null
  const value = valueOfChoices(problem, boxes)
  const chosen = bestChoice(boxes, value, (choice) => byCorners.totalOf(choice))
  const valueBound = value(chosen)
  const kept = byCorners.partsOf(chosen)
  const keptTrees = kept.map((part, at) => cornerTree(onSheets[at] as OnSheet, part, problem))
  const offcutBound = -byCorners.totalOf(chosen)
  if (objective === 'largest offcut' || objective === 'most value')
    return planOf(problem, keptTrees, {
      ...{ valueBound, bound: objective === 'most value' ? valueBound : offcutBound, isProved: true },
    })

  const least = objective === 'fewest cuts' ? leastCuts(problem, boxes, valueBound, value) : 0
  const measured = (trees: CutTree[], bounds: Omit<Bounds, 'valueBound'>): CutPlan => {
    const plan = planOf(problem, trees, { valueBound, ...bounds })
    const reached = objective === 'fewest cuts' ? plan.cutCount : plan.wasteUm2
    return reached <= plan.bound ? { ...plan, bound: reached, isProved: true } : plan
  }
  let best = measured(keptTrees, { bound: least, isProved: false })
  yield best

  const grids = sheets.map((sheet) =>
    gridOf((problem.cloths[sheet.clothIndex]?.ways ?? []).flat(), [sheet], problem),
  )
  const { divisions } = countChoices(wanted)
  const work = sheets.reduce((sum, sheet, at) => sum + gridWork(divisions, sheet, grids[at] as number), 0)
  if (work <= mostGridWork) {
    const onGrids: GridCuts[] = []
    for (const [at, { sheet, boxes: ofSheet }] of onSheets.entries()) {
      const cuts = new GridCuts(ofSheet, sheet, problem, objective, grids[at] as number)
      for (const _ of cuts.build()) yield best
      onGrids.push(cuts)
    }
    const shared = new ShareOut(
      boxes,
      onSheets.map(({ sheet }, at) => (choice) =>
        choice === 0 ? 0 : (onGrids[at] as GridCuts).costOf(choice, sheet.width, sheet.height),
      ),
    )
    for (const _ of shared.build()) yield best
    const parts = shared.partsOf(bestChoice(boxes, value, (choice) => shared.totalOf(choice)))
    const trees = parts.map((part, at) => {
      const { sheet } = onSheets[at] as OnSheet
      return part === 0 ? free : (onGrids[at] as GridCuts).tree(part, sheet.width, sheet.height)
    })
    const plan = planOf(problem, trees, { valueBound, bound: 0, isProved: true })
    return { ...plan, bound: objective === 'fewest cuts' ? plan.cutCount : plan.wasteUm2 }
  }

  for (const budget of budgets) {
    const trees: CutTree[] = []
    for (const [at, part] of kept.entries()) {
      const { sheet, boxes: ofSheet } = onSheets[at] as OnSheet
      trees.push(
        part === 0 ? free : new TightCuts(ofSheet, problem, objective, budget).find(part, sheet.width, sheet.height).tree,
      )
      yield best
    }
    const plan = measured(trees, { bound: least, isProved: false })
    if (comparePlans(plan, best, objective) > 0) best = plan
    if (best.isProved) break
    yield best
  }
  return best
}

const cornerTree = ({ sheet, boxes, corners }: OnSheet, part: number, problem: CutProblem): CutTree =>
  part === 0
    ? free
    : corners.tree(part, (strip, width, height) => {
        const inside = new TightCuts(boxes, problem, 'least waste', stripBudget)
        return sheet.width > 0 ? inside.find(strip, width, height).tree : free
      })

function valueOfChoices({ wanted }: CutProblem, boxes: SubsetBoxes): (choice: number) => number {
  return (choice) => wanted.reduce((sum, { value }, kind) => sum + value * boxes.copiesIn(choice, kind), 0)
}

/** The choice of most value that the sheets take, at the least cost, the smaller number where they are equal. */
function bestChoice(boxes: SubsetBoxes, valueOf: (choice: number) => number, totalOf: (choice: number) => number): number {
  let best = 0
  let bestValue = 0
  let bestTotal = totalOf(0)
  for (let choice = 1; choice < boxes.choiceCount; choice++) {
    const total = totalOf(choice)
    if (total === Number.POSITIVE_INFINITY) continue
    const value = valueOf(choice)
    if (value < bestValue || (value === bestValue && total >= bestTotal)) continue
    best = choice
    bestValue = value
    bestTotal = total
  }
  return best
}

/**
 * A sheet from which so many are cut takes as many cuts, one fewer only when nothing at all is left of it, which its area tells.
 */
function leastCuts(
  { wanted, sheets, cloths }: CutProblem,
  boxes: SubsetBoxes,
  value: number,
  valueOf: (choice: number) => number,
): number {
  let leastPieces = Number.POSITIVE_INFINITY
  const areas = sheets.map(({ width, height }) => width * height)
  const isFilled = sheets.map(() => false)
  for (let choice = 1; choice < boxes.choiceCount; choice++) {
    if (valueOf(choice) === value)
      leastPieces = Math.min(
        leastPieces,
        wanted.reduce((sum, _, kind) => sum + boxes.copiesIn(choice, kind), 0),
      )
    for (const [at, { clothIndex }] of sheets.entries()) {
      const area = wanted.reduce((sum, _, kind) => {
        const areasOfWays = (cloths[clothIndex]?.ways[kind] ?? []).map(({ width, height }) => width * height)
        return sum + boxes.copiesIn(choice, kind) * Math.max(0, ...areasOfWays)
      }, 0)
      if (area >= (areas[at] as number)) isFilled[at] = true
    }
  }
  return Math.max(0, leastPieces - isFilled.filter(Boolean).length)
}
