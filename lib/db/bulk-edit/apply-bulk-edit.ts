import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import type { BulkStep, BulkThread } from '#lib/stock/plan-bulk-edit'
import type { StockChange } from '#lib/stock/stock-change'
import { requireWhole } from '../access/whole'
import { newId } from '../new-id'
import { applyStockChange, type ChangedMeanwhile } from '../stock/apply-stock-change'
import { hasOwner, hasPlace, type NoSuchOwner, type NoSuchPlace } from '../stock/change-batch'
import { write } from '../write'
import type { Write } from '../write-gate'
import { type BulkRequest, chunks, mostThreads, readBulkEdit } from './read-bulk-edit'

export type BulkRefused =
  | NoSuchPlace
  | NoSuchOwner
  | ChangedMeanwhile
  | { kind: 'nothing-changes' }
  | { kind: 'too-many'; count: number; most: number }

/** 5,000 threads with 7,500 batches take some fifteen seconds. */
const timeoutMs = 180_000
/** Batches written by one call of `applyStockChange`, which names each in one statement. */
const batchesAtOnce = 60

/**
 * Make one change to many threads in one write, with a movement for every batch it changes, and keep what it takes to undo it.
 *
 * @param request.fingerprint  of the preview the person saw; the write is refused as `changed-meanwhile` when it would now do something
 *   else. Left out, it is done as things stand.
 */
export function applyBulkEdit(
  request: BulkRequest & { fingerprint?: string | undefined; who?: string | null },
): Promise<Result<{ bulkEditId: string; changed: number; refused: number; same: number }, BulkRefused>> {
  requireWhole()
  type Done = { bulkEditId: string; changed: number; refused: number; same: number }
  return write<Done, BulkRefused>(async (writing) => {
    const { tx, at } = writing
    const { change, what, who = null } = request
    if (request.threadIds.length > mostThreads)
      return refused({ kind: 'too-many', count: request.threadIds.length, most: mostThreads })
    if (change.kind === 'home' && !(await hasPlace(tx, change.toPlaceId)))
      return refused({ kind: 'no-such-place', placeId: change.toPlaceId })
    if (change.kind === 'owner' && !(await hasOwner(tx, change.toOwnerId)))
      return refused({ kind: 'no-such-owner', ownerId: change.toOwnerId })

    const { plan, versions, fingerprint } = await readBulkEdit(tx, request)
    if (request.fingerprint !== undefined && request.fingerprint !== fingerprint) return refused({ kind: 'changed-meanwhile' })
    const changing = plan.lines.filter(({ outcome }) => outcome.kind === 'changes')
    if (changing.length === 0) return refused({ kind: 'nothing-changes' })

    await writeThreads(writing, plan.threads, versions)
    const applied = await writeStock(writing, plan.stock, { versions, who })
    if (!applied.ok) return applied

    const bulkEditId = newId()
    const steps = changing.map(
      ({ threadId, batchId, before }): BulkStep => ({
        threadId,
        batchId,
        before,
        versionAfter: versions.get(batchId ?? threadId) as number,
      }),
    )
    await tx.bulkEdit.create({ data: { id: bulkEditId, at, who, what, stepsJson: JSON.stringify({ change, steps }) } })
    const count = (kind: 'refused' | 'same') => plan.lines.filter(({ outcome }) => outcome.kind === kind).length
    return ok({ bulkEditId, changed: changing.length, refused: count('refused'), same: count('same') })
  }, timeoutMs)
}

/** Write threads read in this same write, and raise their versions, in the rows and in `versions`. */
export async function writeThreads(
  { tx, touch }: Write,
  threads: readonly BulkThread[],
  versions: Map<string, number>,
): Promise<void> {
  // Threads that get the same values share a statement: a change has one value for all, an undo a few.
  const alike = new Map<string, BulkThread[]>()
  for (const thread of threads) {
    const { id: _id, ...values } = thread
    const key = JSON.stringify(values)
    const group = alike.get(key)
    if (group) group.push(thread)
    else alike.set(key, [thread])
  }
  for (const group of alike.values()) {
    const { id: _id, ...values } = group[0] as BulkThread
    for (const some of chunks(group)) {
      await tx.thread.updateMany({
        where: { id: { in: some.map(({ id }) => id) } },
        data: { ...values, version: { increment: 1 } },
      })
    }
    for (const { id } of group) {
      versions.set(id, (versions.get(id) as number) + 1)
      touch('thread', id)
    }
  }
}

/** Write a change of many batches, some at a time. */
export async function writeStock(
  writing: Write,
  stock: StockChange,
  context: { versions: Map<string, number>; who: string | null },
): Promise<Result<null, ChangedMeanwhile>> {
  const movementsOf = new Map<string, StockChange['movements']>()
  for (const movement of stock.movements)
    movementsOf.set(movement.batchId, [...(movementsOf.get(movement.batchId) ?? []), movement])
  for (const batches of chunks(stock.batches, batchesAtOnce)) {
    const movements = batches.flatMap(({ id }) => movementsOf.get(id) ?? [])
    const applied = await applyStockChange(writing, { batches, movements, promises: [] }, context)
    if (!applied.ok) return applied
  }
  return ok(null)
}
