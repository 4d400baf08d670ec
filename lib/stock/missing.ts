import { ok, type Result, refused } from '#lib/result'
import type { Batch, StockPromise } from './batch'
import type { Parting } from './part-off'
import { planSplit } from './plan-batches'
import { planTake } from './plan-place'
import { after, draft, type NotEnough, type NothingParted, type StockChange } from './stock-change'

/** Nothing says where it was: what has neither a home nor a place cannot be missing from one. */
export type NoPlace = { kind: 'no-place'; batchId: string }

/** What is missing, and the batch that says so from now on. */
export type MissingPlan = { change: StockChange; missingBatchId: string }

/**
 * Put some of a batch, or all of it, on record as looked for in vain. It is out from then on, not free, and its home stays, so that it is
 * known where it goes when it turns up.
 *
 * Promises hold nothing back here, since goods that are not there cannot be kept for anybody: they stay with what is left of the batch,
 * where one that is too large now is seen to be broken (see `findBrokenPromises`). For that a batch of which all is missing stays as an
 * empty row while something of it is promised.
 *
 * @param missing.toPlaceId  the record's own place for what is not found; null: it stays where it was seen last, which must not be its home
 * @param missing.promises   the promises of this batch
 * @returns `no-place` too when it is to stay and is at home, where it would go on being free
 * @throws {RangeError} if the put-ups are not a whole number, or it is to go where it is
 */
export function planMissing(
  batch: Batch,
  missing: Parting & {
    toPlaceId: string | null
    projectId?: string | null
    newBatchId?: string
    reason?: string | null
    promises?: readonly StockPromise[]
  },
): Result<MissingPlan, NotEnough | NothingParted | NoPlace> {
  const { wholePutUps, takesPart, toPlaceId, projectId = null, reason = null, newBatchId = 'new:1' } = missing
  if (!Number.isSafeInteger(wholePutUps) || wholePutUps < 0) throw new RangeError(`planMissing: wholePutUps ${wholePutUps}`)
  const here = batch.currentPlaceId ?? batch.homePlaceId
  if (here === null) return refused({ kind: 'no-place', batchId: batch.id })
  if (toPlaceId === null && (batch.homePlaceId ?? here) === here) return refused({ kind: 'no-place', batchId: batch.id })
  if (wholePutUps === 0 && !takesPart) return refused({ kind: 'nothing-parted', batchId: batch.id })
  // What never was given a home lived where it lay: there it is to go back.
  const known: Batch = { ...batch, homePlaceId: batch.homePlaceId ?? here, currentPlaceId: here }
  const promised = [...new Set((missing.promises ?? []).filter((p) => p.batchId === batch.id).map((p) => p.projectId))]

  if (toPlaceId === null) {
    const split = planSplit(known, { wholePutUps, takesPart, newBatchId, reason })
    if (split.ok) return ok({ change: split.value, missingBatchId: newBatchId })
    if (split.error.kind !== 'nothing-left') return narrowed(split.error)
    const freed = promised.sort().map((id) => ({ batchId: batch.id, projectId: id, strandTenths: 0 }))
    return ok({ change: { batches: [], movements: [], promises: freed }, missingBatchId: batch.id })
  }

  const taken = planTake(known, { wholePutUps, takesPart, toPlaceId, projectId, newBatchId, reason })
  if (!taken.ok) return narrowed(taken.error)
  const isWhole = !taken.value.batches.some(({ isNew }) => isNew)
  if (!isWhole) return ok({ change: taken.value, missingBatchId: newBatchId })
  if (promised.length === 0) return ok({ change: taken.value, missingBatchId: batch.id })

  const places = { fromPlaceId: here, toPlaceId, projectId, reason }
  const away: Batch = { ...known, id: newBatchId, currentPlaceId: toPlaceId }
  const left = after(known, { wholePutUps: 0, partStrandTenths: 0, partCertainty: 'none' })
  const { wholePutUps: whole, partStrandTenths: part } = batch
  return ok({
    change: {
      batches: [left, { ...after(away), isNew: true, parentId: batch.id }],
      movements: [
        draft('split', batch, { wholeDelta: -whole, partDeltaStrandTenths: -part, ...places }),
        draft('take', away, { wholeDelta: whole, partDeltaStrandTenths: part, ...places }),
      ],
      promises: [],
    },
    missingBatchId: newBatchId,
  })
}

type Impossible = 'not-enough-free' | 'nothing-left' | 'already-there'

/** Without promises nothing is short for others; what is gone already is not asked for again. */
function narrowed<E extends { kind: string }>(error: E): Result<never, Exclude<E, { kind: Impossible }>> {
  const { kind } = error
  if (kind === 'not-enough-free' || kind === 'nothing-left' || kind === 'already-there')
    throw new RangeError(`planMissing: ${kind}`)
  return refused(error as Exclude<E, { kind: Impossible }>)
}
