import type { CutPlan, CutRequest } from '../cut-plan'
import { type CutProblem, cutProblem } from './cut-problem'
import { free } from './cut-tree'
import { type Draft, isBetter, planOf, withReached } from './draft'
import { firstDraft, searchLarge } from './search-large'
import { isSmall, searchSmall } from './search-small'
import { mostValue, objectiveBound } from './simple-bounds'
import { countChoices } from './subset-boxes'

/** With so many divisions or fewer, going through every choice takes no longer than a first draft. */
const quickDivisions = 60_000

/**
 * Search for the best way to cut what is wanted, with cuts from edge to edge. Yields the best plan so far every few milliseconds of work;
 * the caller decides how long to go on. The last one is returned, when nothing is left to try. The same request gives the same plans.
 *
 * As much as can be is cut, by value; of the plans that cut as much, the best by the objective is taken.
 *
 * @throws {RangeError} if a figure of the request is not a whole number, or is too small or too large.
 */
export function* searchCuts(request: CutRequest): Generator<CutPlan, CutPlan> {
  const problem = cutProblem(request)
  const { objective } = request
  let best = withReached(
    problem,
    {
      trees: problem.sheets.map(() => free),
      valueBound: mostValue(problem),
      bound: objectiveBound(problem, objective),
      isProved: false,
    },
    objective,
  )
  if (best.valueBound === 0) return planOf(problem, { ...best, isProved: true })
  let plan = planOf(problem, best)
  const search = searchAll(problem, request)
  for (;;) {
    const { value: draft, done } = search.next()
    const isNews = draft && (done || draft.valueBound !== best.valueBound || draft.bound !== best.bound || draft.isProved)
    if (draft && draft !== best && (isNews || isBetter(problem, draft, best, objective))) {
      best = draft
      plan = planOf(problem, best)
    }
    if (done) return plan
    yield plan
  }
}

function* searchAll(problem: CutProblem, { objective, seed }: CutRequest): Generator<Draft | null, Draft> {
  if (!isSmall(problem)) return yield* searchLarge(problem, objective, randomFrom(seed))
  if (countChoices(problem.wanted).divisions > quickDivisions) yield yield* firstDraft(problem, objective)
  return yield* searchSmall(problem, objective)
}

/** Even figures from nought to under one, the same for the same seed (Steele, Lea and Flood's SplitMix, 2014, cut to 32 bits). */
function randomFrom(seed: number): () => number {
  let state = seed | 0
  return () => {
    state = (state + 0x9e3779b9) | 0
    let mixed = Math.imul(state ^ (state >>> 16), 0x85ebca6b)
    mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35)
    return ((mixed ^ (mixed >>> 16)) >>> 0) / 2 ** 32
  }
}
