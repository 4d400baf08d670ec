import { ok, type Result, refused } from '#lib/result'
import { delta, isEmpty, nothing, together } from './amounts'
import { type Batch, isOut, knownStrandTenths, type StockPromise } from './batch'
import { partOff, promisedOf } from './part-off'
import { carriedOver } from './plan-promise'
import {
  type AlreadyThere,
  after,
  assertWhole,
  draft,
  isEqualBatch,
  type NotEnough,
  type NotEnoughFree,
  type NothingParted,
  type StockChange,
} from './stock-change'

/** Move a batch to another place, for a while (it is then out) or to live there (`becomesHome`). */
export function planMove(
  batch: Batch,
  move: { toPlaceId: string; becomesHome: boolean; reason?: string | null },
): Result<StockChange, AlreadyThere> {
  const homePlaceId = move.becomesHome ? move.toPlaceId : batch.homePlaceId
  if (batch.currentPlaceId === move.toPlaceId && batch.homePlaceId === homePlaceId) {
    return refused({ kind: 'already-there', batchId: batch.id, placeId: move.toPlaceId })
  }
  return ok({
    batches: [after(batch, { homePlaceId, currentPlaceId: move.toPlaceId })],
    movements: [
      draft('move', batch, { fromPlaceId: batch.currentPlaceId, toPlaceId: move.toPlaceId, reason: move.reason ?? null }),
    ],
    promises: [],
  })
}

/**
 * Take whole put-ups, the part skein, or both, to another place (a project's bag). The home stays, so what is taken is out. When
 * something stays behind, what is taken becomes a batch of its own with the old one as parent, and as much of the project's promise
 * as it covers goes with it.
 *
 * @param promises  The promises of this batch; what others were promised must stay behind.
 * @returns `not-enough` when so much is not there; `not-enough-free` when too little would stay for the others; `already-there`.
 * @throws {RangeError} if nothing is taken or the put-ups are not a whole number.
 */
export function planTake(
  batch: Batch,
  take: {
    wholePutUps: number
    takesPart: boolean
    toPlaceId: string
    projectId?: string | null
    newBatchId?: string
    reason?: string | null
    promises?: readonly StockPromise[]
  },
): Result<StockChange, NotEnough | NotEnoughFree | NothingParted | AlreadyThere> {
  assertWhole('planTake', 'wholePutUps', take.wholePutUps, take.takesPart ? 0 : 1)
  const projectId = take.projectId ?? null
  const promises = take.promises ?? []
  if (batch.currentPlaceId === take.toPlaceId)
    return refused({ kind: 'already-there', batchId: batch.id, placeId: take.toPlaceId })
  const othersPromised = promisedOf(batch, promises, (id) => id !== projectId)
  const split = partOff('planTake', batch, take, othersPromised)
  if (!split.ok) return split
  const { parted, left } = split.value
  const places = { fromPlaceId: batch.currentPlaceId, toPlaceId: take.toPlaceId, projectId, reason: take.reason ?? null }
  if (isEmpty(left)) {
    return ok({
      batches: [after(batch, { currentPlaceId: take.toPlaceId })],
      movements: [draft('take', batch, places)],
      promises: [],
    })
  }
  const taken = { ...batch, ...parted, id: take.newBatchId ?? 'new:1' }
  const takenStrandTenths = knownStrandTenths(taken)
  const own = promisedOf(batch, promises, (id) => id === projectId)
  const goesAlong = Math.min(own, takenStrandTenths)
  return ok({
    batches: [after(batch, left), { ...after(taken, { currentPlaceId: take.toPlaceId }), isNew: true, parentId: batch.id }],
    movements: [
      draft('split', batch, { ...delta(batch, left), ...places }),
      draft('take', taken, { ...delta(nothing, parted), ...places }),
    ],
    promises:
      projectId !== null && goesAlong > 0
        ? [
            { batchId: batch.id, projectId, strandTenths: own - goesAlong },
            { batchId: taken.id, projectId, strandTenths: goesAlong },
          ]
        : [],
  })
}

/**
 * Put a batch that is out back where it lives. When `atHome` is an equal batch lying there, the two become one row and the returned
 * one is gone; promises on it go over to the other.
 *
 * Unmarked batches are merged only with the caller's word that they belong together: hand in as `atHome` the one it was split from.
 *
 * @param promises  The promises of both batches.
 */
export function planReturn(
  batch: Batch,
  back: { atHome?: Batch | null; projectId?: string | null; reason?: string | null; promises?: readonly StockPromise[] },
): Result<StockChange, { kind: 'not-out'; batchId: string } | { kind: 'not-equal'; batchId: string }> {
  if (!isOut(batch)) return refused({ kind: 'not-out', batchId: batch.id })
  const atHome = back.atHome ?? null
  const places = {
    fromPlaceId: batch.currentPlaceId,
    toPlaceId: batch.homePlaceId,
    projectId: back.projectId ?? null,
    reason: back.reason ?? null,
  }
  if (!atHome) {
    return ok({
      batches: [after(batch, { currentPlaceId: batch.homePlaceId })],
      movements: [draft('return', batch, places)],
      promises: [],
    })
  }
  if (atHome.id === batch.id || !isEqualBatch(atHome, batch) || isOut(atHome))
    return refused({ kind: 'not-equal', batchId: atHome.id })
  const joined = together(atHome, batch)
  return ok({
    batches: [after(atHome, joined), { ...after(batch, { ...nothing, currentPlaceId: batch.homePlaceId }), isGone: true }],
    movements: [
      draft('return', batch, { ...delta(batch, nothing), ...places }),
      draft('merge', atHome, { ...delta(atHome, joined), ...places }),
    ],
    promises: carriedOver(batch, atHome, back.promises ?? []),
  })
}
