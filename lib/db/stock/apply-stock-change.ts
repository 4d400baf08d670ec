import 'server-only'
import { calendarDay } from '#lib/quantity/day'
import { ok, type Result, refused } from '#lib/result'
import { type Batch, isOut, type PartCertainty, type StockPromise } from '#lib/stock/batch'
import type { PromiseAfter, StockChange } from '#lib/stock/stock-change'
import type { Transaction } from '../client'
import type { Prisma } from '../generated/sqlite/client'
import { settleMoved } from '../loan/settle-lines'
import { settleSeen } from '../missing/settle-seen'
import { newId } from '../new-id'
import type { Write } from '../write-gate'

export type ChangedMeanwhile = { kind: 'changed-meanwhile' }

export const batchColumns = {
  id: true,
  threadId: true,
  ownerId: true,
  lot: true,
  putUpWord: true,
  putUpStrandTenths: true,
  wholePutUps: true,
  partStrandTenths: true,
  partCertainty: true,
  homePlaceId: true,
  currentPlaceId: true,
} as const satisfies Prisma.BatchSelect

export const promiseColumns = { id: true, batchId: true, projectId: true, strandTenths: true } as const

export type StockSnapshot = { batches: Batch[]; promises: StockPromise[]; versions: Map<string, number> }

/**
 * Batches as the planners take them, with all promises on them and the version each row is at. What is gone is left out. In the order
 * the batches came in.
 */
export async function readBatches(tx: Transaction, where: Prisma.BatchWhereInput): Promise<StockSnapshot> {
  const these = { AND: [where, { goneAt: null }] }
  const rows = await tx.batch.findMany({ where: these, select: { ...batchColumns, version: true }, orderBy: { id: 'asc' } })
  // Not as a relation of the batches: that is asked for with every batch's id, and SQLite takes no more than 999 of them.
  const promises = await tx.stockPromise.findMany({
    where: { batch: these },
    select: promiseColumns,
    orderBy: [{ batchId: 'asc' }, { id: 'asc' }],
  })
  return {
    batches: rows.map(({ version: _version, ...batch }) => ({
      ...batch,
      partCertainty: batch.partCertainty as PartCertainty,
    })),
    promises,
    versions: new Map(rows.map((row) => [row.id, row.version])),
  }
}

/** Since when a batch is out: it stays the day it left home while it goes from bag to bag, and what is split off it keeps that day. */
function outSinceAfter(batch: Pick<Batch, 'homePlaceId' | 'currentPlaceId'>, before: Date | null, at: Date): Date | null {
  return isOut(batch) ? (before ?? at) : null
}

/**
 * Write what a planner of lib/stock decided: batches, their promises and the journal.
 *
 * Every batch that changes, or has a promise changed, is claimed by the version it was read at and raised by one; all of them are
 * touched. `context.versions` is raised in step, so several changes of different batches can follow one another on one snapshot.
 *
 * @param context.versions  By batch, from `readBatches` in this same write, or for an edit form the version the person saw.
 * @param context.movementIds  Ids for the first lines of the journal, made by whoever sent the change, so that it is known again.
 * @returns `changed-meanwhile` when a batch is at another version or gone: give it back from the write, so that nothing stays.
 * @throws {RangeError} if a batch that is not new has no version.
 */
export async function applyStockChange(
  write: Write,
  change: StockChange,
  context: { versions: Map<string, number>; who?: string | null; importId?: string | null; movementIds?: readonly string[] },
): Promise<Result<null, ChangedMeanwhile>> {
  const { tx, at, revision, touch } = write
  const { versions } = context
  const kept = new Map(change.batches.filter((batch) => !batch.isNew).map((batch) => [batch.id, batch]))
  const added = change.batches.filter((batch) => batch.isNew)
  const addedIds = new Set(added.map((batch) => batch.id))
  const promisedIds = change.promises.map((promise) => promise.batchId).filter((id) => !addedIds.has(id))
  const claimedIds = [...new Set([...kept.keys(), ...promisedIds])].sort()
  const parentIds = added.flatMap((batch) => batch.parentId ?? [])

  const rows = await tx.batch.findMany({
    where: { id: { in: [...new Set([...claimedIds, ...parentIds])] } },
    select: { id: true, outSince: true, homePlaceId: true, currentPlaceId: true },
  })
  const before = new Map(rows.map((row) => [row.id, row]))
  const outSinceById = new Map(rows.map((row) => [row.id, row.outSince]))

  for (const id of claimedIds) {
    const version = versions.get(id)
    if (version === undefined) throw new RangeError(`applyStockChange: no version for batch ${id}`)
    const batch = kept.get(id)
    const claimed = await tx.batch.updateMany({
      where: { id, version, goneAt: null },
      data: {
        version: { increment: 1 },
        ...(batch && {
          ownerId: batch.ownerId,
          lot: batch.lot,
          putUpWord: batch.putUpWord,
          putUpStrandTenths: batch.putUpStrandTenths,
          wholePutUps: batch.wholePutUps,
          partStrandTenths: batch.partStrandTenths,
          partCertainty: batch.partCertainty,
          homePlaceId: batch.homePlaceId,
          currentPlaceId: batch.currentPlaceId,
          outSince: outSinceAfter(batch, outSinceById.get(id) ?? null, at),
          goneAt: batch.isGone ? at : null,
        }),
      },
    })
    if (claimed.count === 0) return refused({ kind: 'changed-meanwhile' })
    versions.set(id, version + 1)
    touch('batch', id)
  }

  if (added.length > 0) {
    await tx.batch.createMany({
      data: added.map(({ isNew: _isNew, isGone: _isGone, ...batch }) => ({
        ...batch,
        outSince: outSinceAfter(batch, (batch.parentId && outSinceById.get(batch.parentId)) || null, at),
      })),
    })
    for (const { id } of added) {
      versions.set(id, 0)
      touch('batch', id)
    }
  }

  const usedIds = new Set(change.movements.flatMap(({ kind, batchId }) => (kind === 'use' ? batchId : [])))
  const seen = [...kept.values()].filter(
    ({ id, currentPlaceId, isGone }) => isGone || usedIds.has(id) || currentPlaceId !== (before.get(id)?.currentPlaceId ?? null),
  )
  await settleSeen(write, { batchIds: seen.map(({ id }) => id) }, context.who ?? null)
  const moved = [...kept.values()].flatMap(({ id, isGone, homePlaceId, currentPlaceId }) => {
    const { currentPlaceId: fromPlaceId = null, homePlaceId: homeBefore = null } = before.get(id) ?? {}
    if (!isGone && currentPlaceId === fromPlaceId && homePlaceId === homeBefore) return []
    const isHome = homePlaceId !== null && currentPlaceId === homePlaceId
    return { batchId: id, fromPlaceId, toPlaceId: isGone ? null : currentPlaceId, isHome }
  })
  await settleMoved(tx, moved, calendarDay(at))

  await writePromises(tx, change.promises)

  await tx.movement.createMany({
    data: change.movements.map((movement, turn) => ({
      id: context.movementIds?.[turn] ?? newId(),
      revision,
      at,
      who: context.who ?? null,
      importId: context.importId ?? null,
      ...movement,
    })),
  })
  return ok(null)
}

/** A promise that changes stays the same promise: how old it is says whose turn it is when stock runs short. */
async function writePromises(tx: Transaction, promises: readonly PromiseAfter[]): Promise<void> {
  if (promises.length === 0) return
  const known = await tx.stockPromise.findMany({
    where: { batchId: { in: [...new Set(promises.map(({ batchId }) => batchId))] } },
    select: promiseColumns,
  })
  const knownOf = new Map(known.map((promise) => [`${promise.batchId} ${promise.projectId}`, promise]))
  const dropped: string[] = []
  const added: { id: string; batchId: string; projectId: string; strandTenths: number }[] = []
  for (const promise of promises) {
    const there = knownOf.get(`${promise.batchId} ${promise.projectId}`)
    if (promise.strandTenths === 0) {
      if (there) dropped.push(there.id)
    } else if (!there) {
      added.push({ id: newId(), ...promise })
    } else if (there.strandTenths !== promise.strandTenths) {
      await tx.stockPromise.update({ where: { id: there.id }, data: { strandTenths: promise.strandTenths } })
    }
  }
  if (dropped.length > 0) await tx.stockPromise.deleteMany({ where: { id: { in: dropped } } })
  if (added.length > 0) await tx.stockPromise.createMany({ data: added })
}
