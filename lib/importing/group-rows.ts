import type { DraftRow } from './drafts'
import type { ImportKind } from './fields'

/** The rows to plan, and those an earlier import brought in, which change nothing but can tell what the others mean. Each ordered by key. */
export type UnknownRows<K extends ImportKind> = {
  rows: DraftRow<K>[]
  known: { row: DraftRow<K>; nounId: string }[]
}

/** Rows by a key; groups and the rows in them keep the order they come in. */
export function groupBy<Row>(rows: Iterable<Row>, keyOf: (row: Row) => string): Map<string, Row[]> {
  const groups = new Map<string, Row[]>()
  for (const row of rows) {
    const key = keyOf(row)
    const group = groups.get(key)
    if (group) group.push(row)
    else groups.set(key, [row])
  }
  return groups
}
