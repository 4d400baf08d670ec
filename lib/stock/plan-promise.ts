import { ok, type Result, refused } from '#lib/result'
import { type Batch, compareExact, type StockPromise } from './batch'
import { freeOfBatch } from './free-stock'
import { promisedOf } from './part-off'
import { assertWhole, type NotEnoughFree, type PromiseAfter } from './stock-change'

/**
 * Decide whether a batch can promise a length to a project.
 *
 * The project's own earlier promise on this batch is replaced, so it does not count against the request. What is out can be promised
 * only as far as it already is to the same project.
 *
 * @param batch     Snapshot read inside the caller's transaction.
 * @param promises  The promises of this batch.
 * @returns         What the project is to have promised of the batch, or `not-enough-free` with what is free.
 * @throws {RangeError} if the requested length is not a positive whole number.
 */
export function planPromise(
  batch: Batch,
  request: { projectId: string; strandTenths: number },
  promises: readonly StockPromise[],
): Result<PromiseAfter, NotEnoughFree> {
  assertWhole('planPromise', 'strandTenths', request.strandTenths, 1)
  const free = freeOfBatch(batch, promises, request.projectId).freeStrandTenths
  if (request.strandTenths > free) {
    return refused({
      kind: 'not-enough-free',
      batchId: batch.id,
      freeStrandTenths: free,
      requestedStrandTenths: request.strandTenths,
    })
  }
  return ok({ batchId: batch.id, projectId: request.projectId, strandTenths: request.strandTenths })
}

/** Free everything a project was promised, in the order of its batches. */
export function planRelease(promises: readonly StockPromise[], projectId: string): PromiseAfter[] {
  const batchIds = new Set(promises.filter((promise) => promise.projectId === projectId).map((promise) => promise.batchId))
  return [...batchIds].sort(compareExact).map((batchId) => ({ batchId, projectId, strandTenths: 0 }))
}

/** The promises on a batch that goes up in another, as promises on that one. */
export function carriedOver(batch: Batch, into: Batch, promises: readonly StockPromise[]): PromiseAfter[] {
  const projectIds = new Set<string>()
  for (const promise of promises) if (promise.batchId === batch.id) projectIds.add(promise.projectId)
  return [...projectIds].sort(compareExact).flatMap((projectId) => {
    const moved = promisedOf(batch, promises, (id) => id === projectId)
    const there = promisedOf(into, promises, (id) => id === projectId)
    return [
      { batchId: batch.id, projectId, strandTenths: 0 },
      { batchId: into.id, projectId, strandTenths: there + moved },
    ]
  })
}
