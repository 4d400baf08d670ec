import 'server-only'
import { type Result, refused } from '#lib/result'
import { type MergeRefused as NotMerged, planMerge } from '#lib/stock/plan-batches'
import { readBatches } from './apply-stock-change'
import { type BatchEdit, changeBatch, type EditRefused, type NoSuchBatch, type StockChanged } from './change-batch'

export type MergeRefused = NotMerged | EditRefused

/**
 * Lay a batch together with an equal one lying at the same place. `batchId` of the answer is the one that is left.
 *
 * @param input.intoVersion  what the person saw of the other one; left out, it is taken as it stands
 */
export function mergeBatches(
  input: BatchEdit & { intoBatchId: string; intoVersion?: number; reason?: string | null },
): Promise<Result<StockChanged, MergeRefused>> {
  return changeBatch<NotMerged | NoSuchBatch | { kind: 'changed-meanwhile' }>(
    input,
    async ({ tx, batch, promises, versions }) => {
      const { intoBatchId, intoVersion, reason } = input
      const there = await readBatches(tx, { id: intoBatchId })
      const into = there.batches[0]
      if (!into) return refused({ kind: 'no-such-batch', batchId: intoBatchId })
      const version = there.versions.get(into.id) as number
      if (intoVersion !== undefined && intoVersion !== version) return refused({ kind: 'changed-meanwhile' })
      versions.set(into.id, version)
      const { line } = await tx.thread.findUniqueOrThrow({
        where: { id: batch.threadId },
        select: { line: { select: { lotsMatter: true } } },
      })
      const parents = await tx.batch.findMany({
        where: { id: { in: [batch.id, into.id] } },
        select: { id: true, parentId: true },
      })
      const parentOf = (id: string) => parents.find((row) => row.id === id)?.parentId ?? null
      const [mine, theirs] = [parentOf(batch.id), parentOf(into.id)]
      const areKin = mine === into.id || theirs === batch.id || (mine !== null && mine === theirs)
      const merged = planMerge(batch, into, {
        lotsMatter: line.lotsMatter,
        areKin,
        reason,
        promises: batch.id === into.id ? promises : [...promises, ...there.promises],
      })
      // With somebody, it is the other row that will come back from them.
      if (merged.ok) {
        const openLine = { batchId: batch.id, backOn: null, loan: { closedOn: null } }
        await tx.loanLine.updateMany({ where: openLine, data: { batchId: into.id } })
      }
      return merged
    },
  )
}
