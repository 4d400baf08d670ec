import type { CutObjective } from '../cut-plan'
import type { CutProblem, Sheet } from './cut-problem'
import { type CutTree, free } from './cut-tree'
import { type Draft, isBetter, withReached } from './draft'
import { GridCuts, gridOf, gridWork } from './grid-cuts'
import { KeptCorners } from './kept-corner'
import { ShareOut } from './share-out'
import { countChoices, SubsetBoxes } from './subset-boxes'
import { TightCuts, type TreeCost } from './tight-cuts'

/** As much as is worked through in some seconds. */
const mostDivisions = 6_000_000
const mostChoices = 20_000
/** Sums, of which some tenth are done, and numbers kept: half a minute, and 400 MB. */
const mostGridWork = 4e10
const mostGridNumbers = 5e7

/** Cuts looked at for the inside of a strip, and, step by step, for a whole sheet. */
const stripBudget = 3_000
const budgets = [3_000, 60_000, 400_000]

/** Whether every choice can be gone through. */
export function isSmall({ wanted, sheets, cloths }: CutProblem): boolean {
  const { choices, divisions } = countChoices(wanted)
  return choices <= mostChoices && divisions * Math.max(cloths.length, sheets.length / 4) <= mostDivisions
}

type OnSheet = { sheet: Sheet; boxes: SubsetBoxes; corners: KeptCorners }
type Search = Generator<Draft | null, Draft>

/**
 * Every choice of the wanted pieces on every sheet: what can be cut, most value and largest offcuts are proved. Least waste and fewest
 * cuts are proved where the sides lie on a grid coarse enough to try every cut, or where a draft reaches what could at best be.
 */
export function* searchSmall(problem: CutProblem, objective: CutObjective): Search {
  const onSheets = yield* everyChoice(problem)
  const { boxes } = onSheets[0] as OnSheet
  const valueOfChoice = valueByChoice(problem, boxes)
  const byCorners = new ShareOut(
    boxes,
    onSheets.map(
      ({ corners }) =>
        (choice) =>
          -(corners.areaBeside(choice) ?? Number.NEGATIVE_INFINITY),
    ),
  )
  for (const _ of byCorners.build()) yield null
  const chosen = bestChoice(boxes, valueOfChoice, (choice) => byCorners.totalOf(choice))
  const valueBound = valueOfChoice(chosen)
  const parts = byCorners.partsOf(chosen)
  const trees = parts.map((part, at) => cornerTree(onSheets[at] as OnSheet, part, problem))
  if (objective === 'most value') return { trees, valueBound, bound: valueBound, isProved: true }
  if (objective === 'largest offcut') return { trees, valueBound, bound: -byCorners.totalOf(chosen), isProved: true }

  const bound = objective === 'fewest cuts' ? leastCuts(problem, boxes, valueBound, valueOfChoice) : 0
  let best = withReached(problem, { trees, valueBound, bound, isProved: false }, objective)
  yield best
  for (const budget of budgets) {
    if (best.isProved) return best
    const tight: CutTree[] = []
    for (const [at, part] of parts.entries()) {
      const { sheet, boxes: ofSheet } = onSheets[at] as OnSheet
      const cuts = new TightCuts(ofSheet, problem, objective, budget)
      tight.push(part === 0 ? free : cuts.find(part, sheet.width, sheet.height).tree)
      yield best
    }
    const draft = withReached(problem, { ...best, trees: tight }, objective)
    if (isBetter(problem, draft, best, objective)) best = draft
  }
  if (best.isProved) return best
  return (yield* everyCut(problem, onSheets, objective, best, valueOfChoice)) ?? best
}

/** Boxes of every choice on every cloth, and what stays whole of every sheet beside it. */
function* everyChoice({ wanted, sheets, cloths, ...rules }: CutProblem): Generator<null, OnSheet[]> {
  const boxesOfCloth: SubsetBoxes[] = []
  for (const [clothIndex, { ways }] of cloths.entries()) {
    const ofCloth = sheets.filter((sheet) => sheet.clothIndex === clothIndex)
    const boxes = new SubsetBoxes(
      wanted.map(({ copies }, index) => ({ copies, ways: ways[index] ?? [] })),
      {
        width: Math.max(...ofCloth.map(({ width }) => width)),
        height: Math.max(...ofCloth.map(({ height }) => height)),
      },
    )
    for (const _ of boxes.build()) yield null
    boxesOfCloth.push(boxes)
  }
  const onSheets: OnSheet[] = []
  for (const sheet of sheets) {
    const boxes = boxesOfCloth[sheet.clothIndex] as SubsetBoxes
    const corners = new KeptCorners(boxes, sheet, rules)
    for (const _ of corners.build()) yield null
    onSheets.push({ sheet, boxes, corners })
  }
  return onSheets
}

/** Every place for every cut, proved; null where the sides lie on too fine a grid. */
function* everyCut(
  problem: CutProblem,
  onSheets: readonly OnSheet[],
  objective: TreeCost,
  best: Draft,
  valueOfChoice: (choice: number) => number,
): Generator<Draft | null, Draft | null> {
  const { boxes } = onSheets[0] as OnSheet
  const { choices, divisions } = countChoices(problem.wanted)
  const grids = onSheets.map(({ sheet }) => gridOf((problem.cloths[sheet.clothIndex]?.ways ?? []).flat(), [sheet], problem))
  let work = 0
  let numbers = 0
  for (const [at, { sheet }] of onSheets.entries()) {
    const grid = grids[at] as number
    work += gridWork(divisions, sheet, grid)
    numbers += (choices * sheet.width * sheet.height) / grid ** 2
  }
  if (work > mostGridWork || numbers > mostGridNumbers) return null
  const cutsOn: GridCuts[] = []
  for (const [at, { sheet, boxes: ofSheet }] of onSheets.entries()) {
    const cuts = new GridCuts(ofSheet, sheet, problem, objective, grids[at] as number)
    for (const _ of cuts.build()) yield best
    cutsOn.push(cuts)
  }
  const shared = new ShareOut(
    boxes,
    onSheets.map(
      ({ sheet }, at) =>
        (choice) =>
          choice === 0 ? 0 : (cutsOn[at] as GridCuts).costOf(choice, sheet.width, sheet.height),
    ),
  )
  for (const _ of shared.build()) yield best
  const parts = shared.partsOf(bestChoice(boxes, valueOfChoice, (choice) => shared.totalOf(choice)))
  const trees = parts.map((part, at) => {
    const { sheet } = onSheets[at] as OnSheet
    return part === 0 ? free : (cutsOn[at] as GridCuts).tree(part, sheet.width, sheet.height)
  })
  return withReached(problem, { ...best, trees, bound: Number.POSITIVE_INFINITY, isProved: true }, objective)
}

const cornerTree = ({ boxes, corners }: OnSheet, part: number, problem: CutProblem): CutTree =>
  part === 0
    ? free
    : corners.tree(
        part,
        (strip, width, height) => new TightCuts(boxes, problem, 'least waste', stripBudget).find(strip, width, height).tree,
      )

function valueByChoice({ wanted }: CutProblem, boxes: SubsetBoxes): (choice: number) => number {
  return (choice) => wanted.reduce((sum, { value }, kind) => sum + value * boxes.copiesIn(choice, kind), 0)
}

/** The choice of most value that the sheets take, at the least cost, the smaller number where they are equal. */
function bestChoice(boxes: SubsetBoxes, valueOfChoice: (choice: number) => number, totalOf: (choice: number) => number): number {
  let best = 0
  let bestValue = 0
  let bestTotal = totalOf(0)
  for (let choice = 1; choice < boxes.choiceCount; choice++) {
    const total = totalOf(choice)
    if (total === Number.POSITIVE_INFINITY) continue
    const value = valueOfChoice(choice)
    if (value < bestValue || (value === bestValue && total >= bestTotal)) continue
    best = choice
    bestValue = value
    bestTotal = total
  }
  return best
}

/** A sheet from which so many are cut takes as many cuts; one fewer only when nothing is left of it, which the areas tell. */
function leastCuts(
  { wanted, sheets, cloths }: CutProblem,
  boxes: SubsetBoxes,
  value: number,
  valueOfChoice: (choice: number) => number,
): number {
  let leastPieces = Number.POSITIVE_INFINITY
  const canBeFilled = sheets.map(() => false)
  for (let choice = 1; choice < boxes.choiceCount; choice++) {
    const copies = wanted.map((_, kind) => boxes.copiesIn(choice, kind))
    if (valueOfChoice(choice) === value) leastPieces = Math.min(leastPieces, sum(copies))
    for (const [at, { clothIndex, width, height }] of sheets.entries()) {
      const areas = copies.map((many, kind) => many * largestArea(cloths[clothIndex]?.ways[kind] ?? []))
      if (sum(areas) >= width * height) canBeFilled[at] = true
    }
  }
  return Math.max(0, leastPieces - canBeFilled.filter(Boolean).length)
}

const sum = (figures: readonly number[]): number => figures.reduce((total, figure) => total + figure, 0)

const largestArea = (ways: readonly { width: number; height: number }[]): number =>
  Math.max(0, ...ways.map(({ width, height }) => width * height))
