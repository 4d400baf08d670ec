import type { CutObjective } from '../cut-plan'
import { bestFirst } from './best-first'
import type { CutProblem, Sheet } from './cut-problem'
import { type CutTree, countWanted, free, renumbered } from './cut-tree'
import { type Draft, figuresOfDraft, isBetter, withReached } from './draft'
import { type FillOrder, fillInOrder, kindsLeft, ordersOf } from './fill-in-order'
import { mendSheet } from './mend-sheet'
import { isSmall, searchSmall } from './search-small'
import { mostValue, objectiveBound } from './simple-bounds'
import { squeeze } from './squeeze'
import { Unlimited } from './unlimited'

type Search = Generator<Draft | null, Draft>

/** Blocks built for a first draft, and for longer looks; and to prove a single sheet. */
const firstBlocks = 1_200
const moreBlocks = [3_000, 8_000, 20_000]
const blocksToProve = 150_000
/** Rounds of filling two or three sheets anew without anything better. */
const refills = 60
/** Rounds of mending without anything better, after which it is given up. */
const patience = 600

/**
 * A good draft soon, better ones while time is given, and a bound: for sets too large to go through every choice. Sheets are filled one
 * after the other in several orders; a single sheet is then searched best first, which may prove its value; then parts of the draft are
 * taken out and cut again as well as they can be, with what was left out, and of several sheets two or three at a time are filled anew.
 */
export function* searchLarge(problem: CutProblem, objective: CutObjective, random: () => number): Search {
  let best = yield* firstDraft(problem, objective)
  yield best
  const take = (trees: readonly CutTree[]) => {
    const draft = withReached(problem, { ...best, trees, isProved: false }, objective)
    if (isBetter(problem, draft, best, objective)) best = draft
  }
  const nothingCut = problem.sheets.map(() => free)
  const fill = function* (filling: FillOrder): Generator<Draft> {
    const search = fillInOrder(problem, filling)
    for (let step = search.next(); ; step = search.next()) {
      if (step.done) return take(step.value)
      yield best
    }
  }
  const [only, ...others] = problem.sheets
  const isAlone = others.length === 0
  for (const blocks of moreBlocks) {
    // When everything is cut already, other orders may still leave larger offcuts; more blocks seldom do.
    if (isAllCut(problem, best) && (objective === 'most value' || blocks !== moreBlocks[0])) break
    for (const order of isAlone ? [[0]] : ordersOf(problem.sheets)) {
      for (const waysTried of ['upright', 'all'] as const) {
        yield* fill({ order, kept: nothingCut, blocks, waysTried })
      }
    }
    if (only && isAlone && blocks === moreBlocks[0]) {
      const proved = yield* proveValue(problem, only, best, objective)
      best = withReached(problem, { ...best, ...proved }, objective)
    }
  }
  for (let idle = 0; idle < patience && !isAllCut(problem, best) && !best.isProved; idle++) {
    const mended = mendSheet(problem, best.trees, random)
    if (mended && isBetter(problem, { trees: mended }, best, objective)) {
      take(mended)
      idle = -1
    }
    yield best
  }
  const canGain = () => !best.isProved && !(objective === 'most value' && isAllCut(problem, best))
  for (let idle = 0; idle < refills && !isAlone && canGain(); idle++) {
    const before = best
    const order = drawn(problem.sheets.length, 2 + Math.floor(2 * random()), random)
    yield* fill({ order, kept: best.trees, blocks: firstBlocks, waysTried: random() < 0.5 ? 'all' : 'upright' })
    if (best !== before) idle = -1
  }
  return yield* mendEachSheet(problem, best, objective)
}

/** So many different numbers below `count`, in random order. */
function drawn(count: number, many: number, random: () => number): number[] {
  const all = Array.from({ length: count }, (_, at) => at)
  return Array.from({ length: Math.min(many, count) }, () => all.splice(Math.floor(random() * all.length), 1)[0] as number)
}

const isAllCut = (problem: CutProblem, { trees, valueBound }: Draft): boolean =>
  figuresOfDraft(problem, trees).value >= valueBound

/** Sheets filled in the order they were asked about. */
export function* firstDraft(problem: CutProblem, objective: CutObjective): Search {
  const none: Draft = {
    trees: problem.sheets.map(() => free),
    valueBound: mostValue(problem),
    bound: objectiveBound(problem, objective),
    isProved: false,
  }
  const order = problem.sheets.map((_, at) => at)
  const trees = yield* fillInOrder(problem, { order, kept: none.trees, blocks: firstBlocks, waysTried: 'all' })
  return withReached(problem, { ...none, trees }, objective)
}

function* proveValue(
  problem: CutProblem,
  sheet: Sheet,
  draft: Draft,
  objective: CutObjective,
): Generator<Draft | null, Pick<Draft, 'trees' | 'valueBound'>> {
  const kinds = kindsLeft(problem, sheet, [])
  const unlimited = Unlimited.on(kinds, sheet)
  yield draft
  if (!unlimited) return draft
  let { trees } = draft
  let valueBound = Math.min(draft.valueBound, unlimited.valueOf(sheet.width, sheet.height))
  const current = () => withReached(problem, { ...draft, trees, valueBound }, objective)
  const tree = unlimited.tree(sheet.width, sheet.height)
  const counts = countWanted(tree, [])
  const isWithinCopies = problem.wanted.every(({ copies }, index) => (counts[index] ?? 0) <= copies)
  if (isWithinCopies && isBetter(problem, { trees: [tree] }, draft, objective)) trees = [tree]
  const { value } = figuresOfDraft(problem, trees)
  if (value >= valueBound) return { trees, valueBound }
  const search = bestFirst(kinds, sheet, unlimited, { known: value, mostBlocks: blocksToProve })
  for (;;) {
    const step = search.next()
    valueBound = Math.min(valueBound, step.value.bound)
    if (step.done) return { trees, valueBound }
    if (step.value.better) trees = [step.value.better.tree()]
    yield current()
  }
}

/**
 * Each sheet alone, with what is cut from it now: through every choice, where that is few enough, else into as small a part of the sheet
 * as it will go.
 */
function* mendEachSheet(problem: CutProblem, draft: Draft, objective: CutObjective): Search {
  let best = draft
  for (const [at, sheet] of problem.sheets.entries()) {
    if (best.isProved) return best
    const counts = countWanted(best.trees[at] as CutTree, [])
    const indexes = [...counts.keys()].filter((index) => (counts[index] ?? 0) > 0)
    if (indexes.length === 0) continue
    const alone: CutProblem = {
      ...problem,
      sheets: [{ ...sheet, clothIndex: 0 }],
      wanted: indexes.map((index) => ({
        ...(problem.wanted[index] as CutProblem['wanted'][number]),
        copies: counts[index] as number,
      })),
      cloths: [{ ways: indexes.map((index) => problem.cloths[sheet.clothIndex]?.ways[index] ?? []) }],
    }
    const search = isSmall(alone) ? searchSmall(alone, objective) : squeeze(alone)
    for (let step = search.next(); ; step = search.next()) {
      const found = step.value?.trees[0]
      if (found) {
        const trees = best.trees.map((tree, other) => (other === at ? renumbered(found, indexes) : tree))
        const better = withReached(problem, { ...best, trees, isProved: false }, objective)
        if (isBetter(problem, better, best, objective)) best = better
      }
      if (step.done) break
      yield best
    }
  }
  return best
}
