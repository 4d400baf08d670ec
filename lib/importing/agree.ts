import type { PlanningDesk } from './planning-desk'
import { canonicalJson } from './row-key'

/**
 * What rows that speak of one thing say of it together: a fact most of them give, of equally many the first in order of its text. Rows
 * that say otherwise are warned of. The order of the rows makes no difference.
 *
 * @param pick  The fact of a row; null or an empty list when the row says nothing.
 * @returns     null when no row says anything.
 */
export function agree<Draft, Fact>(
  desk: PlanningDesk,
  rows: readonly { rowNumber: number; draft: Draft }[],
  field: string,
  pick: (draft: Draft) => Fact | null,
): Fact | null {
  const facts = rows.map((row) => pick(row.draft))
  const chosen = mostSaid(facts)
  if (chosen === null || facts.length === 1) return chosen
  const key = canonicalJson(chosen)
  for (const row of rows) {
    const said = pick(row.draft)
    if (saysNothing(said) || canonicalJson(said) === key) continue
    desk.warn(row.rowNumber, field, 'rows-disagree', shown(said), [shown(chosen)])
  }
  return chosen
}

/** @returns the value most often given, of equally many the first in order of its text; null when none is. */
export function mostSaid<Fact>(facts: readonly (Fact | null)[]): Fact | null {
  const said = facts.filter((fact) => !saysNothing(fact))
  if (said.length <= 1) return said[0] ?? null
  const tally = new Map<string, { fact: Fact; times: number }>()
  for (const fact of said) {
    const key = canonicalJson(fact)
    const entry = tally.get(key)
    if (entry) entry.times++
    else tally.set(key, { fact: fact as Fact, times: 1 })
  }
  const ordered = [...tally].sort(
    ([leftKey, left], [rightKey, right]) => right.times - left.times || (leftKey < rightKey ? -1 : 1),
  )
  return ordered[0]?.[1].fact ?? null
}

const saysNothing = (fact: unknown): boolean => fact === null || (Array.isArray(fact) && fact.length === 0)

const shown = (fact: unknown): string =>
  Array.isArray(fact) ? fact.join('; ') : typeof fact === 'object' ? canonicalJson(fact) : String(fact)
