import type { ScheduleJob } from './schedule'

/** A part of a stitch-along that is still to be stitched. Days are yyyy-mm-dd. */
export type OpenPart = { id: string; comesOn: string | null; dueOn: string | null; stitches: number | null }

/** A work with what is left of it, and its parts that are not done, in their order. */
type WorkToPlan = {
  id: string
  left: number | null
  /** It is not to be begun before; null from today, or when it is begun. */
  fromOn: string | null
  stitchedBy: string | null
  parts: readonly OpenPart[]
}

/** The id of a part's job, told apart from that of its work. */
export const partJobId = (workId: string, partId: string): string => `${workId}/${partId}`

/**
 * What a work asks of the weeks: one job, or one for each of its parts and one for the rest, so that a part is stitched when it has come
 * out and by its own day.
 *
 * Parts that say how many stitches they have take that; the others share what the work has left beyond those alike, the first of them
 * what does not go round. A part without a day of its own has the work's.
 *
 * @returns none where nobody knows what is left
 */
export function jobsOf({ id, left, fromOn, stitchedBy, parts }: WorkToPlan): ScheduleJob[] {
  const said = parts.reduce((sum, { stitches }) => sum + (stitches ?? 0), 0)
  const unsaid = parts.filter(({ stitches }) => stitches === null)
  if (left === null && (parts.length === 0 || unsaid.length > 0)) return []
  const rest = Math.max(0, (left ?? said) - said)
  const share = unsaid.length > 0 ? Math.floor(rest / unsaid.length) : 0
  const over = unsaid.length > 0 ? rest - share * unsaid.length : 0
  const jobs = parts.map((part): ScheduleJob => {
    const own = part.stitches ?? share + (part === unsaid[0] ? over : 0)
    return { id: partJobId(id, part.id), left: own, fromOn: later(part.comesOn, fromOn), stitchedBy: part.dueOn ?? stitchedBy }
  })
  return unsaid.length > 0 ? jobs : [...jobs, { id, left: rest, fromOn, stitchedBy }]
}

const later = (a: string | null, b: string | null): string | null => (a === null || (b !== null && b > a) ? b : a)

/** A rule that makes parts: one each month on a day, or one every so many days. */
export type PartsRule =
  | { kind: 'monthly'; day: number; from: string; count: number }
  | { kind: 'days'; days: number; from: string; count: number }

export const mostPartsMade = 60

/**
 * The days on which so many parts come out, from a day on. Monthly ones come on that day of each month, or on its last where it has
 * fewer.
 */
export function partDays(rule: PartsRule): string[] {
  const [year, month] = [Number(rule.from.slice(0, 4)), Number(rule.from.slice(5, 7))]
  const dayOf = (turn: number): string => {
    if (rule.kind === 'days') return new Date(Date.parse(rule.from) + turn * rule.days * 86_400_000).toISOString().slice(0, 10)
    const last = new Date(Date.UTC(year, month + turn, 0)).getUTCDate()
    return new Date(Date.UTC(year, month - 1 + turn, Math.min(rule.day, last))).toISOString().slice(0, 10)
  }
  const first = dayOf(0) < rule.from ? 1 : 0
  return Array.from({ length: rule.count }, (_, at) => dayOf(first + at))
}
