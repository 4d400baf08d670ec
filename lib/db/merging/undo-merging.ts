import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { requireWhole } from '../access/whole'
import { write } from '../write'
import { journalBatches, journalCopies } from './journal'
import { takeBackSteps } from './keep-steps'
import { mergingStepsBegin, readMergingSteps } from './merging'
import type { MergingRefusal } from './merging-refusal'

type Refusal = Extract<MergingRefusal, { kind: 'no-such-merging' | 'already-undone' | 'changed-since' }>

const timeoutMs = 180_000

/**
 * Make one thing two again, in one write. What came to the one since stays with it, and skeins used since stay used; where something the
 * merge itself wrote was changed since, nothing is done.
 */
export function undoMerging(input: { mergingId: string; who?: string | null }): Promise<Result<{ goneId: string }, Refusal>> {
  requireWhole()
  return write<{ goneId: string }, Refusal>(async (open) => {
    const { tx, touch } = open
    const { mergingId, who = null } = input
    const row = await tx.bulkEdit.findFirst({ where: { id: mergingId, stepsJson: { startsWith: mergingStepsBegin } } })
    if (!row) return refused({ kind: 'no-such-merging', id: mergingId })
    const claimed = await tx.bulkEdit.updateMany({
      where: { id: mergingId, status: 'done', version: row.version },
      data: { status: 'undone', version: { increment: 1 } },
    })
    if (claimed.count === 0) return refused({ kind: 'already-undone', id: mergingId })
    const { merged, steps, touched, copies, batchIds } = readMergingSteps(row.stepsJson)
    const changed = await takeBackSteps(open, steps)
    if (changed !== null) return refused({ kind: 'changed-since', table: changed })
    for (const [noun, id] of touched) touch(noun, id)
    const reason = `${row.what}, taken back`
    const line = { kind: 'undo' as const, who, reason }
    if (copies !== null) await journalCopies(open, { fromId: merged.keptId, toId: merged.goneId, count: copies }, line)
    await journalBatches(open, batchIds, line)
    return ok({ goneId: merged.goneId })
  }, timeoutMs)
}
