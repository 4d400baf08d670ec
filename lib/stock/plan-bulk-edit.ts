import { type Batch, compareExact, type StockPromise } from './batch'
import { planRelabel } from './plan-amounts'
import { planTransfer } from './plan-batches'
import { after, draft, type StockChange } from './stock-change'

/** What can be changed of many threads at once: the first three of the thread itself, the others of its batches. */
export type BulkChange =
  | { kind: 'minimum'; putUps: number | null }
  | { kind: 'family'; family: string | null }
  | { kind: 'leaving'; isLeaving: boolean }
  | { kind: 'home'; toPlaceId: string }
  | { kind: 'owner'; toOwnerId: string }
  | { kind: 'lot'; lot: string }

/** A change as it is kept for its undo. `filing`: each batch got a home of its own, named in its step. */
export type KeptChange = BulkChange | { kind: 'filing' }

export type BulkThread = { id: string; minimumPutUps: number | null; family: string | null; isLeaving: boolean }

/** A value of a thread or a batch as it was; of `home` the place it lived in and the one it lay in. */
export type BulkValue = number | string | boolean | null | { homePlaceId: string | null; currentPlaceId: string | null }

export type WhyNot =
  | { kind: 'promised'; projectIds: string[] }
  | { kind: 'has-lot'; lot: string }
  /** A used-up batch: there is nothing to pass on or to mark. */
  | { kind: 'nothing-held' }
  /** No batch of the thread is these owners'. */
  | { kind: 'no-stock' }

/** What becomes of one thread, or of one batch of it. `isOut`: its home changes, and it stays where it is. */
export type BulkLine = {
  threadId: string
  batchId: string | null
  before: BulkValue
  isOut: boolean
  outcome: { kind: 'changes' } | { kind: 'same' } | { kind: 'refused'; why: WhyNot }
}

export type BulkPlan = {
  /** In the order of the threads handed in, each thread's batches by id. */
  lines: BulkLine[]
  threads: BulkThread[]
  stock: StockChange
}

/** What it takes to undo one line: the value before, and the version its thread or batch got. `toPlaceId`: the home filing gave it. */
export type BulkStep = {
  threadId: string
  batchId: string | null
  before: BulkValue
  versionAfter: number
  toPlaceId?: string | undefined
}

const isEmpty = (batch: Batch): boolean => batch.wholePutUps === 0 && batch.partCertainty === 'none'

type Planned = { outcome: BulkLine['outcome']; before: BulkValue; isOut: boolean; stock: StockChange | null }

const stays = (before: BulkValue, outcome: BulkLine['outcome']): Planned => ({ outcome, before, isOut: false, stock: null })

/** A new home for one batch: what lies at the old one goes along, what is out stays where it is. `reason` is not empty. */
export function planHome(batch: Batch, toPlaceId: string, reason: string): Planned {
  const before = { homePlaceId: batch.homePlaceId, currentPlaceId: batch.currentPlaceId }
  if (batch.homePlaceId === toPlaceId) return stays(before, { kind: 'same' })
  const isElsewhere = batch.currentPlaceId !== null && batch.currentPlaceId !== batch.homePlaceId
  const currentPlaceId = isElsewhere ? batch.currentPlaceId : toPlaceId
  return {
    outcome: { kind: 'changes' },
    before,
    isOut: isElsewhere && currentPlaceId !== toPlaceId,
    stock: {
      batches: [after(batch, { homePlaceId: toPlaceId, currentPlaceId })],
      movements: [draft('move', batch, { fromPlaceId: batch.homePlaceId, toPlaceId, reason })],
      promises: [],
    },
  }
}

function planBatch(batch: Batch, change: BulkChange, promises: readonly StockPromise[], reason: string): Planned {
  switch (change.kind) {
    case 'home':
      return planHome(batch, change.toPlaceId, reason)
    case 'owner': {
      if (isEmpty(batch)) return stays(batch.ownerId, { kind: 'refused', why: { kind: 'nothing-held' } })
      const planned = planTransfer(batch, { toOwnerId: change.toOwnerId, promises, reason })
      if (planned.ok) return { outcome: { kind: 'changes' }, before: batch.ownerId, isOut: false, stock: planned.value }
      if (planned.error.kind === 'already-theirs') return stays(batch.ownerId, { kind: 'same' })
      const { projectIds } = planned.error
      return stays(batch.ownerId, { kind: 'refused', why: { kind: 'promised', projectIds } })
    }
    case 'lot': {
      if (batch.lot === change.lot) return stays(batch.lot, { kind: 'same' })
      if (batch.lot !== null) return stays(batch.lot, { kind: 'refused', why: { kind: 'has-lot', lot: batch.lot } })
      if (isEmpty(batch)) return stays(null, { kind: 'refused', why: { kind: 'nothing-held' } })
      const planned = planRelabel(batch, { ...batch, lot: change.lot, reason })
      if (!planned.ok) throw new RangeError(`planBulkEdit: ${planned.error.kind}`)
      return { outcome: { kind: 'changes' }, before: null, isOut: false, stock: planned.value }
    }
    default:
      throw new TypeError(`planBulkEdit: ${change.kind} is not of a batch`)
  }
}

/** The thread with the change made; null when it is of its batches. */
function changedThread(thread: BulkThread, change: BulkChange): { before: BulkValue; after: BulkThread } | null {
  switch (change.kind) {
    case 'minimum':
      return { before: thread.minimumPutUps, after: { ...thread, minimumPutUps: change.putUps } }
    case 'family':
      return { before: thread.family, after: { ...thread, family: change.family } }
    case 'leaving':
      return { before: thread.isLeaving, after: { ...thread, isLeaving: change.isLeaving } }
    default:
      return null
  }
}

const isSame = (a: BulkThread, b: BulkThread): boolean =>
  a.minimumPutUps === b.minimumPutUps && a.family === b.family && a.isLeaving === b.isLeaving

/**
 * Decide one change for many threads: what changes, what is so already, what cannot be and why. One that cannot keeps none of the others
 * back.
 *
 * A new home takes along what lies at the old one; what is out, or lies somewhere without a home, stays where it is and has the new home
 * from then on. A lot is given only to what has no lot mark: two lots are never run together.
 *
 * @param batches   The batches to change, of these threads; others are passed over.
 * @param reason    Why, for the journal: not empty.
 * @throws {RangeError} if the reason is empty.
 */
export function planBulkEdit(input: {
  change: BulkChange
  threads: readonly BulkThread[]
  batches: readonly Batch[]
  promises: readonly StockPromise[]
  reason: string
}): BulkPlan {
  const { change, threads } = input
  const reason = input.reason.trim()
  if (reason === '') throw new RangeError('planBulkEdit: no reason')
  const batchesOf = new Map<string, Batch[]>()
  for (const batch of [...input.batches].sort((a, b) => compareExact(a.id, b.id))) {
    const batches = batchesOf.get(batch.threadId)
    if (batches) batches.push(batch)
    else batchesOf.set(batch.threadId, [batch])
  }
  const promisesOf = new Map<string, StockPromise[]>()
  for (const promise of input.promises) {
    const promises = promisesOf.get(promise.batchId)
    if (promises) promises.push(promise)
    else promisesOf.set(promise.batchId, [promise])
  }
  const plan: BulkPlan = { lines: [], threads: [], stock: { batches: [], movements: [], promises: [] } }
  for (const thread of threads) {
    const line = { threadId: thread.id, batchId: null, isOut: false }
    const changed = changedThread(thread, change)
    if (changed) {
      const outcome = isSame(thread, changed.after) ? ({ kind: 'same' } as const) : ({ kind: 'changes' } as const)
      plan.lines.push({ ...line, before: changed.before, outcome })
      if (outcome.kind === 'changes') plan.threads.push(changed.after)
      continue
    }
    const batches = batchesOf.get(thread.id) ?? []
    if (batches.length === 0) plan.lines.push({ ...line, before: null, outcome: { kind: 'refused', why: { kind: 'no-stock' } } })
    for (const batch of batches) {
      const { outcome, before, isOut, stock } = planBatch(batch, change, promisesOf.get(batch.id) ?? [], reason)
      plan.lines.push({ threadId: thread.id, batchId: batch.id, before, isOut, outcome })
      if (!stock) continue
      plan.stock.batches.push(...stock.batches)
      plan.stock.movements.push(...stock.movements)
    }
  }
  return plan
}

/** Why a line of a change is not undone. */
export type LeftAlone = { threadId: string; batchId: string | null; why: 'changed-since' | 'gone' | 'place-gone' }

export type BulkUndo = { left: LeftAlone[]; threads: BulkThread[]; stock: StockChange }

/**
 * Take a change of many threads back: each thing that is still at the version the change left it at is as it was before; what was changed
 * since, or is gone, or lived in a place that is gone, is left alone and named.
 *
 * @param input.versions  by thread and by batch, as they stand now
 * @param input.placeIds  places that are still there
 */
export function planBulkUndo(input: {
  change: KeptChange
  steps: readonly BulkStep[]
  threads: ReadonlyMap<string, BulkThread>
  batches: ReadonlyMap<string, Batch>
  versions: ReadonlyMap<string, number>
  placeIds: ReadonlySet<string>
  reason: string
}): BulkUndo {
  const { change, steps, versions, reason } = input
  const isOfHomes = change.kind === 'home' || change.kind === 'filing'
  const undo: BulkUndo = { left: [], threads: [], stock: { batches: [], movements: [], promises: [] } }
  for (const { threadId, batchId, before, versionAfter } of steps) {
    const leave = (why: LeftAlone['why']) => undo.left.push({ threadId, batchId, why })
    const thread = input.threads.get(threadId)
    const batch = batchId === null ? undefined : input.batches.get(batchId)
    if (batchId === null ? !thread : !batch) leave('gone')
    else if (versions.get(batchId ?? threadId) !== versionAfter) leave('changed-since')
    else if (batch) {
      const back = batchBefore(batch, change, before)
      const places = [back.homePlaceId, back.currentPlaceId].filter((id) => id !== null)
      if (isOfHomes && places.some((id) => !input.placeIds.has(id))) {
        leave('place-gone')
        continue
      }
      undo.stock.batches.push(after(back))
      undo.stock.movements.push(
        draft('undo', batch, {
          reason,
          ...(isOfHomes && { fromPlaceId: batch.homePlaceId, toPlaceId: back.homePlaceId }),
          ...(change.kind === 'owner' && { fromOwnerId: batch.ownerId, toOwnerId: back.ownerId }),
        }),
      )
    } else if (thread) undo.threads.push(threadBefore(thread, change, before))
  }
  return undo
}

function batchBefore(batch: Batch, change: KeptChange, before: BulkValue): Batch {
  if ((change.kind === 'home' || change.kind === 'filing') && typeof before === 'object' && before !== null)
    return { ...batch, ...before }
  if (change.kind === 'owner' && typeof before === 'string') return { ...batch, ownerId: before }
  if (change.kind === 'lot' && before === null) return { ...batch, lot: null }
  throw new RangeError(`planBulkUndo: ${change.kind} of batch ${batch.id} was ${JSON.stringify(before)}`)
}

function threadBefore(thread: BulkThread, change: KeptChange, before: BulkValue): BulkThread {
  if (change.kind === 'minimum' && (before === null || typeof before === 'number')) return { ...thread, minimumPutUps: before }
  if (change.kind === 'family' && (before === null || typeof before === 'string')) return { ...thread, family: before }
  if (change.kind === 'leaving' && typeof before === 'boolean') return { ...thread, isLeaving: before }
  throw new RangeError(`planBulkUndo: ${change.kind} of thread ${thread.id} was ${JSON.stringify(before)}`)
}
