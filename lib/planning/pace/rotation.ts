import { addDays, weekdayOf } from '#lib/quantity/day'

export const rotationRules = ['days', 'hours', 'stitches', 'weekday'] as const

/** When it is another's turn: after so many days on which it was stitched, hours or stitches; or each has its days of the week. */
export type RotationRule = { by: (typeof rotationRules)[number]; days: number; hours: number; stitches: number }

export type Turn = {
  projectId: string
  /** Its days of the week: 1 Monday, 2 Tuesday, 4 Wednesday … 64 Sunday, added up. */
  weekdays: number
}

/** What was done, of a project of the rotation. */
export type TurnWork = { projectId: string; day: string; stitches: number; minutes: number }

export type NextTurn =
  | { kind: 'empty' }
  /** Its turn is not over: `done` of `of`, in the unit of the rule. */
  | { kind: 'stays'; projectId: string; done: number; of: number }
  /** Its turn now; `after` had so much. Nothing came before where nothing was logged yet. */
  | { kind: 'turn'; projectId: string; after: { projectId: string; done: number; of: number } | null }
  /** The projects of today. */
  | { kind: 'today'; projectIds: string[] }
  /** None has this day of the week. */
  | { kind: 'free-day'; nextOn: string; projectIds: string[] }
  | { kind: 'no-days' }

const bitOf = (weekday: number): number => 1 << (weekday - 1)

/** Whether a set of days of the week, as `Turn` has it, has this one: 1 Monday to 7 Sunday. */
export const hasWeekday = (weekdays: number, weekday: number): boolean => (weekdays & bitOf(weekday)) !== 0

/** Days of the week as one number. */
export const weekdaysOf = (days: readonly number[]): number => days.reduce((sum, weekday) => sum | bitOf(weekday), 0)

/**
 * What is next. It follows from the log alone: the turn is that of the project last worked on, from the last time another was; what is
 * logged on projects outside the rotation leaves it as it is.
 *
 * @param turns  the projects that can be stitched, in the order of the rotation
 * @param work   of these, the earliest first
 */
export function findNextTurn(input: {
  rule: RotationRule
  turns: readonly Turn[]
  work: readonly TurnWork[]
  today: string
}): NextTurn {
  const { rule, turns, today } = input
  const [first] = turns
  if (!first) return { kind: 'empty' }
  if (rule.by === 'weekday') return nextByWeekday(turns, today)
  const places = new Map(turns.map(({ projectId }, at) => [projectId, at]))
  const work = input.work.filter(({ projectId }) => places.has(projectId))
  const last = work.at(-1)
  if (!last) return { kind: 'turn', projectId: first.projectId, after: null }
  const run = work.slice(work.findLastIndex(({ projectId }) => projectId !== last.projectId) + 1)
  const of = rule[rule.by]
  const done = measure(rule.by, run)
  if (done < of) return { kind: 'stays', projectId: last.projectId, done, of }
  const next = turns[((places.get(last.projectId) as number) + 1) % turns.length] as Turn
  return { kind: 'turn', projectId: next.projectId, after: { projectId: last.projectId, done, of } }
}

function measure(by: 'days' | 'hours' | 'stitches', run: readonly TurnWork[]): number {
  if (by === 'days') return new Set(run.map(({ day }) => day)).size
  const sum = run.reduce((total, one) => total + (by === 'hours' ? one.minutes : one.stitches), 0)
  return by === 'hours' ? sum / 60 : sum
}

function nextByWeekday(turns: readonly Turn[], today: string): NextTurn {
  for (let ahead = 0; ahead < 7; ahead++) {
    const day = addDays(today, ahead)
    const projectIds = turns.filter(({ weekdays }) => hasWeekday(weekdays, weekdayOf(day))).map(({ projectId }) => projectId)
    if (projectIds.length > 0) return ahead === 0 ? { kind: 'today', projectIds } : { kind: 'free-day', nextOn: day, projectIds }
  }
  return { kind: 'no-days' }
}
