import { daysBetween } from '#lib/quantity/day'

export const outNouns = ['thread', 'cloth', 'chart', 'notion'] as const
export type OutNoun = (typeof outNouns)[number]

/** How long something is out at most, in days; null: longer than all of these. */
export const outSpans = [7, 28, 91, 365, null] as const

export type OutSpan = {
  /** null: longer than a year. `unknown`: nobody wrote down since when. */
  upToDays: number | null | 'unknown'
  total: number
} & Record<OutNoun, number>

/**
 * What is not in its home, by how long it has been away; the shortest first, and last what nobody dated, where there is any.
 *
 * @param things  `sinceOn` is yyyy-mm-dd
 */
export function outByAge(things: readonly { noun: OutNoun; sinceOn: string | null }[], today: string): OutSpan[] {
  const span = (upToDays: OutSpan['upToDays']): OutSpan => ({ upToDays, total: 0, thread: 0, cloth: 0, chart: 0, notion: 0 })
  const spans = outSpans.map(span)
  const undated = span('unknown')
  for (const { noun, sinceOn } of things) {
    const days = sinceOn === null ? null : daysBetween(sinceOn, today)
    const at = days === null ? undated : spans.find(({ upToDays }) => upToDays === null || days <= (upToDays as number))
    const into = at ?? undated
    into[noun]++
    into.total++
  }
  return undated.total > 0 ? [...spans, undated] : spans
}
