import type { Batch, StockPromise } from '#lib/stock/batch'

/** An 8 m skein of six strands. */
export const skein = 480_000

/** Two skeins at home, unless said otherwise. */
export const aBatch = (change: Partial<Batch> = {}): Batch => ({
  id: 'b1',
  threadId: 'larkholm 0311',
  ownerId: 'shop',
  lot: null,
  putUpWord: null,
  putUpStrandTenths: skein,
  wholePutUps: 2,
  partStrandTenths: 0,
  partCertainty: 'none',
  homePlaceId: 'T2.1-14',
  currentPlaceId: 'T2.1-14',
  ...change,
})

export const aPromise = (change: Partial<StockPromise> = {}): StockPromise => ({
  id: 'p1',
  batchId: 'b1',
  projectId: 'rooks',
  strandTenths: skein,
  ...change,
})
