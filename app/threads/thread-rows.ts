import { getAnswers } from '#lib/db/answers/get-answers'
import type { ThreadRow } from '#lib/db/thread/list-threads'

/** A thread as the list has it. */
export type ThreadListRow = ThreadRow & {
  /** How many designs have a list that uses it. */
  designCount: number
}

/** The same rows with what the answers know of them. */
export async function withDesignCounts(rows: readonly ThreadRow[]): Promise<ThreadListRow[]> {
  const { needs } = await getAnswers()
  return rows.map((row) => ({ ...row, designCount: needs.designCountOf(row.id) }))
}
