import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { type BulkThread, type LeftAlone, planBulkUndo } from '#lib/stock/plan-bulk-edit'
import { requireWhole } from '../access/whole'
import { type ChangedMeanwhile, readBatches } from '../stock/apply-stock-change'
import { write } from '../write'
import { writeStock, writeThreads } from './apply-bulk-edit'
import { ofThreads, readStepsJson } from './queries'
import { chunks, readBulkState } from './read-bulk-edit'

export type BulkUndoRefused =
  | { kind: 'no-such-edit'; bulkEditId: string }
  | { kind: 'already-undone'; bulkEditId: string }
  | ChangedMeanwhile

export type BulkUndone = { takenBack: number; left: LeftAlone[] }

const timeoutMs = 180_000

/** Take a change of many threads back in one write; what was changed since is left alone and named. */
export function undoBulkEdit(input: { bulkEditId: string; who?: string | null }): Promise<Result<BulkUndone, BulkUndoRefused>> {
  requireWhole()
  return write<BulkUndone, BulkUndoRefused>(async (writing) => {
    const { tx } = writing
    const { bulkEditId, who = null } = input
    const row = await tx.bulkEdit.findFirst({ where: { id: bulkEditId, ...ofThreads } })
    if (!row) return refused({ kind: 'no-such-edit', bulkEditId })
    const claimed = await tx.bulkEdit.updateMany({
      where: { id: bulkEditId, status: 'done', version: row.version },
      data: { status: 'undone', version: { increment: 1 } },
    })
    if (claimed.count === 0) return refused({ kind: 'already-undone', bulkEditId })

    const { change, steps } = readStepsJson(row.stepsJson)
    const state = await readBulkState(tx, { threadIds: steps.map(({ threadId }) => threadId), batchesOf: null })
    const batches = new Map<string, Awaited<ReturnType<typeof readBatches>>['batches'][number]>()
    for (const ids of chunks(steps.flatMap(({ batchId }) => batchId ?? []))) {
      const read = await readBatches(tx, { id: { in: ids } })
      for (const batch of read.batches) batches.set(batch.id, batch)
      for (const [id, version] of read.versions) state.versions.set(id, version)
    }
    const places = await tx.place.findMany({ where: { goneAt: null }, select: { id: true } })
    const undo = planBulkUndo({
      change,
      steps,
      threads: state.threads as ReadonlyMap<string, BulkThread>,
      batches,
      versions: state.versions,
      placeIds: new Set(places.map(({ id }) => id)),
      reason: `${row.what}, taken back`,
    })
    await writeThreads(writing, undo.threads, state.versions)
    const applied = await writeStock(writing, undo.stock, { versions: state.versions, who })
    if (!applied.ok) return applied
    await tx.bulkEdit.update({
      where: { id: bulkEditId },
      data: { stepsJson: JSON.stringify({ change, steps, left: undo.left }) },
    })
    return ok({ takenBack: steps.length - undo.left.length, left: undo.left })
  }, timeoutMs)
}
