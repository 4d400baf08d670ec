import type { CutPlan, CutRequest } from '../cut-plan'
import { cutProblem } from './cut-problem'
import { free } from './cut-tree'
import { planOf } from './plan-of'
import { searchSmall } from './search-small'

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
  const allValue = problem.wanted.reduce((sum, { copies, value }) => sum + copies * value, 0)
  const nothing = planOf(
    problem,
    problem.sheets.map(() => free),
    { valueBound: allValue, bound: request.objective === 'most value' ? allValue : 0, isProved: false },
  )
  if (problem.wanted.length === 0 || problem.sheets.length === 0)
    return { ...nothing, valueBound: 0, bound: nothing.largestOffcutsUm2, isProved: true }
  let best = nothing
  const search = searchSmall(problem, request.objective)
  for (;;) {
    const { value, done } = search.next()
    if (done) return value
    best = value ?? best
    yield best
  }
}
