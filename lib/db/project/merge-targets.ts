import 'server-only'
import { type Batch, isOut } from '#lib/stock/batch'
import { isEqualBatch } from '#lib/stock/stock-change'
import type { Transaction } from '../client'
import { readBatches, type StockSnapshot } from '../stock/apply-stock-change'

/**
 * For every batch that is out, the equal one at its home that it can be laid with again, first come first; all found in one reading.
 * Where lots matter, unmarked thread is laid only with what it was split from or with: nobody can say that two unmarked skeins match.
 */
export async function readMergeTargets(
  tx: Transaction,
  batches: readonly Batch[],
): Promise<{ mergeInto: Map<string, Batch>; atHome: StockSnapshot }> {
  const away = batches.filter(isOut)
  const atHome = await readBatches(tx, {
    threadId: { in: [...new Set(away.map((batch) => batch.threadId))] },
    ownerId: { in: [...new Set(away.map((batch) => batch.ownerId))] },
  })
  const ids = [...new Set([...away, ...atHome.batches].map((batch) => batch.id))]
  const [parents, threads] = await Promise.all([
    tx.batch.findMany({ where: { id: { in: ids } }, select: { id: true, parentId: true } }),
    tx.thread.findMany({
      where: { id: { in: away.map((batch) => batch.threadId) }, line: { lotsMatter: true } },
      select: { id: true },
    }),
  ])
  const parentOf = new Map(parents.map((batch) => [batch.id, batch.parentId]))
  const lotsMatter = new Set(threads.map((thread) => thread.id))
  const isKin = (a: Batch, b: Batch) => {
    const [parentA, parentB] = [parentOf.get(a.id) ?? null, parentOf.get(b.id) ?? null]
    return parentA === b.id || parentB === a.id || (parentA !== null && parentA === parentB)
  }
  const mergeInto = new Map<string, Batch>()
  for (const batch of away) {
    const mustBeKin = batch.lot === null && lotsMatter.has(batch.threadId)
    const found = atHome.batches.find(
      (other) =>
        other.id !== batch.id &&
        other.currentPlaceId === other.homePlaceId &&
        isEqualBatch(other, batch) &&
        (!mustBeKin || isKin(other, batch)),
    )
    if (found) mergeInto.set(batch.id, found)
  }
  return { mergeInto, atHome }
}
