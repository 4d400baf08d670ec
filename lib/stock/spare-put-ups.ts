import type { Batch, StockPromise } from './batch'
import { stockInPutUps } from './reorder'

/**
 * How many whole put-ups of a thread one can do without: free, beyond what was promised and is not there, and beyond what is kept. Part
 * skeins are no put-ups.
 *
 * @throws {RangeError} if `keepPutUps` is not a whole number from 0.
 */
export function sparePutUps(batches: readonly Batch[], promises: readonly StockPromise[], keepPutUps: number): number {
  if (!Number.isSafeInteger(keepPutUps) || keepPutUps < 0) throw new RangeError(`sparePutUps: keep ${keepPutUps}`)
  const { freePutUps, unmetPutUps } = stockInPutUps(batches, promises)
  return Math.max(0, freePutUps - unmetPutUps - keepPutUps)
}
