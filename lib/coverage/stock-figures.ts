import { type Batch, isOut, type StockPromise } from '#lib/stock/batch'
import { freeOfBatch } from '#lib/stock/free-stock'
import type { ThreadFigures } from './line-status'

/** What `figuresOf(freeStock(…))` comes to for a new project, without saying where what is not free is: a third of the time. */
export function stockFigures(input: {
  threadId: string
  batches: readonly Batch[]
  promises: readonly StockPromise[]
  ownerIds: readonly string[]
}): { threadId: string } & ThreadFigures {
  const { threadId, batches, promises, ownerIds } = input
  const figures = {
    threadId,
    freeStrandTenths: 0,
    bestLotStrandTenths: 0,
    bestMarkedLotStrandTenths: 0,
    ownedStrandTenths: 0,
    bestOwnedLotStrandTenths: 0,
    isSomeHeld: false,
  }
  /** Lots are few: looked through, they are found sooner than by a hash. */
  const lots: { lot: string; free: number; owned: number }[] = []
  for (const batch of batches) {
    if (!ownerIds.includes(batch.ownerId)) continue
    if (batch.partCertainty === 'some' && !isOut(batch)) figures.isSomeHeld = true
    const { freeStrandTenths, ownedStrandTenths } = freeOfBatch(batch, promises, null)
    figures.freeStrandTenths += freeStrandTenths
    figures.ownedStrandTenths += ownedStrandTenths
    if (batch.lot === null) {
      figures.bestLotStrandTenths = Math.max(figures.bestLotStrandTenths, freeStrandTenths)
      figures.bestOwnedLotStrandTenths = Math.max(figures.bestOwnedLotStrandTenths, ownedStrandTenths)
      continue
    }
    const known = lots.find(({ lot }) => lot === batch.lot)
    if (known) {
      known.free += freeStrandTenths
      known.owned += ownedStrandTenths
    } else lots.push({ lot: batch.lot, free: freeStrandTenths, owned: ownedStrandTenths })
  }
  for (const { free, owned } of lots) {
    figures.bestMarkedLotStrandTenths = Math.max(figures.bestMarkedLotStrandTenths, free)
    figures.bestLotStrandTenths = Math.max(figures.bestLotStrandTenths, free)
    figures.bestOwnedLotStrandTenths = Math.max(figures.bestOwnedLotStrandTenths, owned)
  }
  return figures
}
