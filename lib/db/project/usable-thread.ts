import 'server-only'
import { type Batch, isOut, knownStrandTenths, type StockPromise } from '#lib/stock/batch'

/**
 * How much of each thread a project can have used: of what is in its bag all that others were not promised, of what is still at home
 * what it was promised itself. In strand tenths, by thread.
 */
export function usableByThread(
  projectId: string,
  batches: readonly Batch[],
  promises: readonly StockPromise[],
): Map<string, number> {
  const usable = new Map<string, number>()
  for (const batch of batches) {
    let own = 0
    let others = 0
    for (const promise of promises) {
      if (promise.batchId !== batch.id) continue
      if (promise.projectId === projectId) own += promise.strandTenths
      else others += promise.strandTenths
    }
    const free = Math.max(0, knownStrandTenths(batch) - others)
    usable.set(batch.threadId, (usable.get(batch.threadId) ?? 0) + (isOut(batch) ? free : Math.min(free, own)))
  }
  return usable
}
