import { ok, type Result, refused } from '#lib/result'
import { type Batch, knownStrandTenths, type StockPromise } from './batch'
import type { StockChange } from './stock-change'

export type NotTakenBack =
  /** Fewer whole put-ups are there than came in. */
  | { kind: 'used-since'; batchId: string; wholePutUps: number; receivedPutUps: number }
  /** What would be left is less than what was promised. */
  | { kind: 'promised-since'; batchId: string; projectIds: string[] }

/**
 * Take back whole put-ups that were put on record as come in, as if they had not been: a slip of the finger, a parcel counted twice.
 *
 * @param received.isAlone  nothing else ever came to the batch: when nothing is left of it, it goes
 * @param promises          the promises of this batch
 * @throws {RangeError} if the put-ups are not a positive whole number.
 */
export function planTakeBack(
  batch: Batch,
  received: { wholePutUps: number; isAlone: boolean; promises: readonly StockPromise[] },
): Result<StockChange, NotTakenBack> {
  const { wholePutUps } = received
  if (!Number.isSafeInteger(wholePutUps) || wholePutUps < 1) throw new RangeError(`planTakeBack: wholePutUps ${wholePutUps}`)
  if (batch.wholePutUps < wholePutUps)
    return refused({
      kind: 'used-since',
      batchId: batch.id,
      wholePutUps: batch.wholePutUps,
      receivedPutUps: wholePutUps,
    })
  const left = { ...batch, wholePutUps: batch.wholePutUps - wholePutUps }
  const promises = received.promises.filter(({ batchId }) => batchId === batch.id)
  const promised = promises.reduce((sum, { strandTenths }) => sum + strandTenths, 0)
  if (promised > knownStrandTenths(left)) {
    const projectIds = [...new Set(promises.map(({ projectId }) => projectId))].sort()
    return refused({ kind: 'promised-since', batchId: batch.id, projectIds })
  }
  const isGone = received.isAlone && left.wholePutUps === 0 && left.partCertainty === 'none'
  return ok({
    batches: [{ ...left, isNew: false, isGone, parentId: null }],
    movements: [
      {
        kind: 'undo',
        batchId: batch.id,
        wholeDelta: -wholePutUps,
        partDeltaStrandTenths: 0,
        fromPlaceId: batch.currentPlaceId,
        toPlaceId: null,
        fromOwnerId: null,
        toOwnerId: null,
        projectId: null,
        reason: null,
      },
    ],
    promises: [],
  })
}
