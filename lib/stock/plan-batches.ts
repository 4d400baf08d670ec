import { ok, type Result, refused } from '#lib/result'
import { delta, isEmpty, nothing, together } from './amounts'
import { type Batch, compareExact, type StockPromise } from './batch'
import { type Parting, partOff, promisedOf } from './part-off'
import { carriedOver } from './plan-promise'
import {
  type AlreadyTheirs,
  after,
  type BatchMark,
  batchMarks,
  draft,
  type NotEnough,
  type NotEnoughFree,
  type NothingParted,
  type Promised,
  type StockChange,
} from './stock-change'

/** Pass all of a batch to another owner; a recorded move between the two. It stays where it is. */
export function planTransfer(
  batch: Batch,
  transfer: { toOwnerId: string; reason?: string | null; promises?: readonly StockPromise[] },
): Result<StockChange, AlreadyTheirs | Promised> {
  const { toOwnerId } = transfer
  if (batch.ownerId === toOwnerId) return refused({ kind: 'already-theirs', ownerId: batch.ownerId })
  const promised = (transfer.promises ?? []).filter((promise) => promise.batchId === batch.id)
  if (promised.length > 0) {
    const projectIds = [...new Set(promised.map((promise) => promise.projectId))].sort(compareExact)
    return refused({ kind: 'promised', batchId: batch.id, projectIds })
  }
  return ok({
    batches: [after(batch, { ownerId: toOwnerId })],
    movements: [draft('transfer', batch, { fromOwnerId: batch.ownerId, toOwnerId, reason: transfer.reason ?? null })],
    promises: [],
  })
}

/**
 * Pass some of a batch to another owner: it becomes a batch of its own, theirs, and stays where it is. What the present owner's projects
 * were promised must stay behind.
 *
 * @param transfer.promises  The promises of this batch.
 * @returns as `planTransfer` when it is all there is.
 */
export function planTransferPart(
  batch: Batch,
  transfer: Parting & { toOwnerId: string; newBatchId?: string; reason?: string | null; promises?: readonly StockPromise[] },
): Result<StockChange, AlreadyTheirs | Promised | NotEnough | NotEnoughFree | NothingParted> {
  const { toOwnerId, promises = [] } = transfer
  if (batch.ownerId === toOwnerId) return refused({ kind: 'already-theirs', ownerId: batch.ownerId })
  const parts = partOff(
    'planTransferPart',
    batch,
    transfer,
    promisedOf(batch, promises, () => true),
  )
  if (!parts.ok) return parts
  const { parted, left } = parts.value
  if (isEmpty(left)) return planTransfer(batch, transfer)
  const theirs = { ...batch, ...parted, id: transfer.newBatchId ?? 'new:1', ownerId: toOwnerId }
  const between = { fromOwnerId: batch.ownerId, toOwnerId, reason: transfer.reason ?? null }
  return ok({
    batches: [after(batch, left), { ...after(theirs), isNew: true, parentId: batch.id }],
    movements: [
      draft('split', batch, { ...delta(batch, left), ...between }),
      draft('transfer', theirs, { ...delta(nothing, parted), ...between }),
    ],
    promises: [],
  })
}

/**
 * Part a batch in two: what is parted off becomes a batch of its own, with a home and a place of its own if they are named. Promises stay
 * with the old one.
 *
 * @param split.homePlaceId     where the new one is to live; left out, where the old one lives
 * @param split.currentPlaceId  where it is now; left out, its new home if one is named, else where the old one is
 * @param split.promises        The promises of this batch, which what stays behind must hold.
 * @returns `nothing-left` when all of the batch is asked for: that is a move.
 */
export function planSplit(
  batch: Batch,
  split: Parting & {
    homePlaceId?: string | null
    currentPlaceId?: string | null
    newBatchId?: string
    reason?: string | null
    promises?: readonly StockPromise[]
  },
): Result<StockChange, NotEnough | NotEnoughFree | NothingParted | { kind: 'nothing-left'; batchId: string }> {
  const parts = partOff(
    'planSplit',
    batch,
    split,
    promisedOf(batch, split.promises ?? [], () => true),
  )
  if (!parts.ok) return parts
  const { parted, left } = parts.value
  if (isEmpty(left)) return refused({ kind: 'nothing-left', batchId: batch.id })
  const homePlaceId = split.homePlaceId === undefined ? batch.homePlaceId : split.homePlaceId
  const here = split.homePlaceId === undefined ? batch.currentPlaceId : split.homePlaceId
  const currentPlaceId = split.currentPlaceId === undefined ? here : split.currentPlaceId
  const own = { ...batch, ...parted, id: split.newBatchId ?? 'new:1', homePlaceId, currentPlaceId }
  const places = { fromPlaceId: batch.currentPlaceId, toPlaceId: currentPlaceId, reason: split.reason ?? null }
  return ok({
    batches: [after(batch, left), { ...after(own), isNew: true, parentId: batch.id }],
    movements: [
      draft('split', batch, { ...delta(batch, left), ...places }),
      draft('split', own, { ...delta(nothing, parted), ...places }),
    ],
    promises: [],
  })
}

/** Why two batches stay two. `place`: they lie apart. `lot-unmarked`: nobody can say that they are of one lot. */
export type MergeRefused =
  | { kind: 'same-batch'; batchId: string }
  | { kind: 'marks-differ'; batchId: string; differs: (BatchMark | 'place')[] }
  | { kind: 'lot-unmarked'; batchId: string }

/**
 * Lay two equal batches lying at one place together: one row holds both, the other is gone, and its promises go over. Both keep their
 * history.
 *
 * @param merge.lotsMatter  of the thread's line: unmarked batches then match only when one was split from the other (`areKin`)
 * @param merge.promises    the promises of both
 */
export function planMerge(
  batch: Batch,
  into: Batch,
  merge: { lotsMatter: boolean; areKin: boolean; reason?: string | null; promises?: readonly StockPromise[] },
): Result<StockChange, MergeRefused> {
  if (batch.id === into.id) return refused({ kind: 'same-batch', batchId: into.id })
  const differs: (BatchMark | 'place')[] = batchMarks.filter((mark) => batch[mark] !== into[mark])
  if (batch.currentPlaceId !== into.currentPlaceId) differs.push('place')
  if (differs.length > 0) return refused({ kind: 'marks-differ', batchId: into.id, differs })
  if (merge.lotsMatter && batch.lot === null && !merge.areKin) return refused({ kind: 'lot-unmarked', batchId: into.id })
  const joined = together(into, batch)
  const places = { fromPlaceId: batch.currentPlaceId, toPlaceId: into.currentPlaceId, reason: merge.reason ?? null }
  return ok({
    batches: [after(into, joined), { ...after(batch, nothing), isGone: true }],
    movements: [
      draft('merge', batch, { ...delta(batch, nothing), ...places }),
      draft('merge', into, { ...delta(into, joined), ...places }),
    ],
    promises: carriedOver(batch, into, merge.promises ?? []),
  })
}
