import type { CutObjective } from '../cut-plan'
import type { CutProblem } from './cut-problem'

/** The least area a copy takes on any cloth; infinite where it lies on none. */
const leastArea = ({ cloths }: CutProblem, index: number): number =>
  Math.min(
    ...cloths.flatMap(({ ways }) => (ways[index] ?? []).map(({ width, height }) => width * height)),
    Number.POSITIVE_INFINITY,
  )

export const sheetArea = ({ sheets }: CutProblem): number => sheets.reduce((sum, { width, height }) => sum + width * height, 0)

type Item = { value: number; copies: number; area: number }

const itemsOf = (problem: CutProblem): Item[] =>
  problem.wanted
    .map(({ value, copies }, index) => ({ value, copies, area: leastArea(problem, index) }))
    .filter(({ area }) => Number.isFinite(area))
    .sort((a, b) => b.value / b.area - a.value / a.area)

/** No more value than the cloth's area has, the most valuable for its area first, the last of them in part (Dantzig's bound, 1957). */
export function mostValue(problem: CutProblem): number {
  let room = sheetArea(problem)
  let most = 0
  for (const { value, copies, area } of itemsOf(problem)) {
    const share = Math.min(copies, room / area)
    most += share * value
    room -= share * area
  }
  return Math.floor(most + 1e-9)
}

/** The least cloth that so much value takes, gaps included: the most valuable for its area first, the last of them in part. */
export function leastAreaFor(problem: CutProblem, value: number): number {
  let wanted = value
  let least = 0
  for (const item of itemsOf(problem)) {
    const share = Math.min(item.copies, wanted / item.value)
    least += share * item.area
    wanted -= share * item.value
  }
  return least
}

/** The fewest cuts that so much value takes: each sheet gives at most one piece more than it has cuts. */
export function leastCutsFor({ wanted, sheets }: CutProblem, value: number): number {
  let missing = value
  let pieces = 0
  for (const item of [...wanted].sort((a, b) => b.value - a.value)) {
    const taken = Math.min(item.copies, Math.ceil(Math.max(0, missing) / item.value))
    pieces += taken
    missing -= taken * item.value
  }
  return Math.max(0, pieces - sheets.length)
}

/** What no plan does better than, whatever it cuts; of large offcuts, all the cloth there is. */
export function objectiveBound(problem: CutProblem, objective: CutObjective): number {
  switch (objective) {
    case 'most value':
      return mostValue(problem)
    case 'least waste':
    case 'fewest cuts':
      return 0
    case 'largest offcut':
      return sheetArea(problem)
  }
}
