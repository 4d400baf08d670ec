import type { Random } from '../random'
import { receipt, type TableRow } from './rows'
import type { MadeThread } from './threads'

export function makeStock(
  random: Random,
  stock: { threads: MadeThread[]; ownerIds: string[]; drawers: string[] },
  ids: { batch: () => string; movement: () => string },
): { batches: TableRow[]; movements: TableRow[] } {
  const batches: TableRow[] = []
  const movements: TableRow[] = []
  stock.threads.forEach((thread, at) => {
    if (!random.chance(0.6)) return
    const homePlaceId = stock.drawers[Math.floor((at * stock.drawers.length) / stock.threads.length)] as string
    const batchCount = thread.line.lotsMatter ? random.int(1, 2) : random.chance(0.1) ? 2 : 1
    for (let made = 0; made < batchCount; made++) {
      const id = ids.batch()
      const ownerId = random.chance(0.85) ? (stock.ownerIds[0] as string) : random.pick(stock.ownerIds)
      const partCertainty = random.weighted([
        ['none', 70],
        ['guess', 15],
        ['measured', 8],
        ['label', 2],
        ['some', 5],
      ] as const)
      const partShare = partCertainty === 'measured' ? random.int(1, 9) / 10 : random.pick([0.25, 0.5, 0.75])
      const partStrandTenths =
        partCertainty === 'none' || partCertainty === 'some' ? 0 : Math.floor(thread.line.putUpStrandTenths * partShare)
      const wholePutUps = partCertainty === 'none' ? random.int(1, 8) : random.int(0, 4)
      batches.push({
        ...{ id, threadId: thread.id, ownerId, lot: thread.line.lotsMatter ? String(random.int(1, 99)) : null },
        ...{ putUpStrandTenths: thread.line.putUpStrandTenths, wholePutUps, partStrandTenths, partCertainty },
        ...{ homePlaceId, currentPlaceId: homePlaceId },
      })
      const amount = {
        wholeDelta: wholePutUps,
        partDeltaStrandTenths: partStrandTenths,
        toPlaceId: homePlaceId,
        toOwnerId: ownerId,
      }
      movements.push(receipt(ids.movement(), { batchId: id }, amount))
    }
  })
  return { batches, movements }
}
