import type { Batch, StockPromise } from '#lib/stock/batch'

/** What is supposed: thread bought, and projects' bags unpacked. */
export type Supposition = {
  /** Whole put-ups of a thread, of a lot or of none known, as its line sells them. */
  buy: readonly { threadId: string; putUps: number; putUpStrandTenths: number; lot: string | null; ownerId: string }[]
  /** Their promises fall away, and what lies in their bags is at home. */
  unpack: readonly { projectId: string; placeId: string | null }[]
}

export type SupposedStock = { batches: Batch[]; promises: StockPromise[] }

/**
 * Stock as it would be; nothing is written.
 *
 * @param stock  All batches of the threads asked about, and the promises on them.
 * @returns the threads whose stock would differ, with all their batches and promises
 */
export function supposeStock(
  stock: ReadonlyMap<string, { batches: readonly Batch[]; promises: readonly StockPromise[] }>,
  { buy, unpack }: Supposition,
): Map<string, SupposedStock> {
  const supposed = new Map<string, SupposedStock>()
  const projectIds = new Set(unpack.map(({ projectId }) => projectId))
  const placeIds = new Set(unpack.flatMap(({ placeId }) => (placeId === null ? [] : [placeId])))
  for (const [threadId, { batches, promises }] of stock) {
    const isInBag = ({ homePlaceId, currentPlaceId }: Batch) =>
      homePlaceId !== null && currentPlaceId !== null && homePlaceId !== currentPlaceId && placeIds.has(currentPlaceId)
    if (!batches.some(isInBag) && !promises.some(({ projectId }) => projectIds.has(projectId))) continue
    supposed.set(threadId, {
      batches: batches.map((batch) => (isInBag(batch) ? { ...batch, currentPlaceId: batch.homePlaceId } : batch)),
      promises: promises.filter(({ projectId }) => !projectIds.has(projectId)),
    })
  }
  for (const [at, { threadId, putUps, putUpStrandTenths, lot, ownerId }] of buy.entries()) {
    const known = supposed.get(threadId) ?? {
      batches: [...(stock.get(threadId)?.batches ?? [])],
      promises: [...(stock.get(threadId)?.promises ?? [])],
    }
    known.batches.push({
      ...{ id: `bought ${at}`, threadId, ownerId, lot, putUpWord: null, putUpStrandTenths, wholePutUps: putUps },
      ...{ partStrandTenths: 0, partCertainty: 'none', homePlaceId: null, currentPlaceId: null },
    })
    supposed.set(threadId, known)
  }
  return supposed
}
