import type { CutStock } from '#lib/coverage/kit-cuts'
import { leftAfter } from '#lib/stock/amounts'
import type { Batch, StockPromise } from '#lib/stock/batch'
import { freeOfBatch } from '#lib/stock/free-stock'

/** What of a batch a project can cut kits from: what others were promised is drawn off first, the part before whole put-ups. */
export function cutStockFor(batch: Batch, promises: readonly StockPromise[], projectId: string): CutStock {
  const { ownedStrandTenths, freeStrandTenths } = freeOfBatch(batch, promises, projectId)
  const { putUpStrandTenths } = batch
  const { wholePutUps, partStrandTenths, partCertainty } = leftAfter(batch, ownedStrandTenths - freeStrandTenths)
  return { putUpStrandTenths, wholePutUps, partStrandTenths: partCertainty === 'some' ? 0 : partStrandTenths }
}
