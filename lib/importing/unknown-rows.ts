import type { DraftRow } from './drafts'
import type { ImportKind } from './fields'

/** The rows to plan, and those an earlier import brought in, which change nothing but can tell what the others mean. Each ordered by key. */
export type UnknownRows<K extends ImportKind> = {
  rows: DraftRow<K>[]
  known: { row: DraftRow<K>; nounId: string }[]
}
