import 'server-only'
import { createHash } from 'node:crypto'
import type { Batch, StockPromise } from '#lib/stock/batch'
import { type BulkChange, type BulkPlan, type BulkThread, planBulkEdit } from '#lib/stock/plan-bulk-edit'
import { database, type Transaction } from '../client'
import { readBatches } from '../stock/apply-stock-change'

/** Ids named in one statement; SQLite takes no more than 999. */
export const idsAtOnce = 400
/** Threads one change may be made to. */
export const mostThreads = 5_000

export type BulkRequest = {
  /** In the order they are to be shown. */
  threadIds: readonly string[]
  /** Whose batches are changed. */
  ownerIds: readonly string[]
  change: BulkChange
  /** In a few words: kept with the change and said in the journal. */
  what: string
}

export function* chunks<T>(items: readonly T[], size = idsAtOnce): Generator<T[]> {
  for (let from = 0; from < items.length; from += size) yield items.slice(from, from + size)
}

export type BulkState = {
  threads: Map<string, BulkThread>
  batches: Batch[]
  promises: StockPromise[]
  /** Of threads and of batches. */
  versions: Map<string, number>
}

/** Threads, and if asked for their batches, as they stand. */
export async function readBulkState(
  tx: Pick<Transaction, 'thread' | 'batch' | 'stockPromise'>,
  asked: { threadIds: readonly string[]; batchesOf: readonly string[] | null },
): Promise<BulkState> {
  const state: BulkState = { threads: new Map(), batches: [], promises: [], versions: new Map() }
  for (const ids of chunks([...new Set(asked.threadIds)])) {
    const rows = await tx.thread.findMany({
      where: { id: { in: ids }, goneAt: null },
      select: { id: true, minimumPutUps: true, family: true, isLeaving: true, version: true },
    })
    for (const { version, ...thread } of rows) {
      state.threads.set(thread.id, thread)
      state.versions.set(thread.id, version)
    }
    if (asked.batchesOf === null) continue
    const owned = { threadId: { in: ids }, ownerId: { in: [...asked.batchesOf] } }
    const { batches, promises, versions } = await readBatches(tx as Transaction, owned)
    state.batches.push(...batches)
    state.promises.push(...promises)
    for (const [id, version] of versions) state.versions.set(id, version)
  }
  return state
}

/** Whether a change is of batches rather than of the threads themselves. */
export const isOfBatches = ({ kind }: BulkChange): boolean => kind === 'home' || kind === 'owner' || kind === 'lot'

export type BulkReading = {
  plan: BulkPlan
  versions: Map<string, number>
  /** The same only as long as the plan is, with every version it rests on. */
  fingerprint: string
}

/** What a change would do to the threads as they stand. Threads that are gone are passed over. */
export async function readBulkEdit(
  tx: Pick<Transaction, 'thread' | 'batch' | 'stockPromise'>,
  { threadIds, ownerIds, change, what }: BulkRequest,
): Promise<BulkReading> {
  const state = await readBulkState(tx, { threadIds, batchesOf: isOfBatches(change) ? ownerIds : null })
  const plan = planBulkEdit({
    change,
    threads: [...new Set(threadIds)].flatMap((id) => state.threads.get(id) ?? []),
    batches: state.batches,
    promises: state.promises,
    reason: what,
  })
  const restsOn = plan.lines.map((line) => [line, state.versions.get(line.batchId ?? line.threadId) ?? null])
  return {
    plan,
    versions: state.versions,
    fingerprint: createHash('sha256')
      .update(JSON.stringify([change, restsOn]))
      .digest('base64url'),
  }
}

/** The same outside a write, for a look before it is done. */
export const previewBulkEdit = (request: BulkRequest): Promise<BulkReading> => readBulkEdit(database().prisma, request)
