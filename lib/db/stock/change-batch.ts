import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import type { Batch, StockPromise } from '#lib/stock/batch'
import type { StockChange } from '#lib/stock/stock-change'
import type { Transaction } from '../client'
import { write } from '../write'
import { applyStockChange, type ChangedMeanwhile, readBatches } from './apply-stock-change'

/** One batch as a form or a caller names it. */
export type BatchEdit = {
  batchId: string
  /** What the person saw; left out, the batch is taken as it stands. */
  version?: number
  who?: string | null
}

/** The batch split off, the one laid with, or the one changed. The journal's lines of the write are found by the revision. */
export type StockChanged = { batchId: string; revision: number }
export type NoSuchBatch = { kind: 'no-such-batch'; batchId: string }
export type NoSuchPlace = { kind: 'no-such-place'; placeId: string }
export type NoSuchProject = { kind: 'no-such-project'; projectId: string }
export type NoSuchOwner = { kind: 'no-such-owner'; ownerId: string }
export type EditRefused = NoSuchBatch | ChangedMeanwhile

type Planning = { tx: Transaction; batch: Batch; promises: StockPromise[]; versions: Map<string, number> }

/**
 * Read one batch, decide, write, in one transaction.
 *
 * @param plan  Reads what else it needs through `tx`; puts the versions of other batches it changes into `versions`.
 */
export function changeBatch<E>(
  edit: BatchEdit,
  plan: (planning: Planning) => Promise<Result<StockChange, E>>,
): Promise<Result<StockChanged, E | EditRefused>> {
  return write<StockChanged, E | EditRefused>(async (writing) => {
    const { tx, revision } = writing
    const { batches, promises, versions } = await readBatches(tx, { id: edit.batchId })
    const batch = batches[0]
    if (!batch) return refused({ kind: 'no-such-batch', batchId: edit.batchId })
    if (edit.version !== undefined && edit.version !== versions.get(batch.id)) return refused({ kind: 'changed-meanwhile' })
    const planned = await plan({ tx, batch, promises, versions })
    if (!planned.ok) return planned
    const applied = await applyStockChange(writing, planned.value, { versions, who: edit.who })
    if (!applied.ok) return applied
    const { batches: after } = planned.value
    const answered = after.find(({ isNew }) => isNew) ?? after.find(({ isGone }) => !isGone)
    return ok({ batchId: answered?.id ?? batch.id, revision })
  })
}

/** Whether a person can put something there: not where the record alone puts what was looked for in vain. */
export const hasPlace = async (tx: Transaction, placeId: string): Promise<boolean> =>
  (await tx.place.count({ where: { id: placeId, goneAt: null, kind: { not: 'not found' } } })) > 0

export const hasProject = async (tx: Transaction, projectId: string): Promise<boolean> =>
  (await tx.project.count({ where: { id: projectId, goneAt: null } })) > 0

export const hasOwner = async (tx: Transaction, ownerId: string): Promise<boolean> =>
  (await tx.owner.count({ where: { id: ownerId } })) > 0
