import 'server-only'
import type { Batch } from '#lib/stock/batch'
import type { Transaction } from '../client'
import { readBatches } from './apply-stock-change'

/**
 * The batch lying at the same home that goods of the same thread, owner, lot and put-up can be laid with: the first that came in.
 *
 * Where lots matter, goods without a lot mark match only what they were split from or what was split with them: nobody can say that
 * two unmarked skeins are of one lot.
 *
 * @param goods.id        left out for goods that are not in stock yet
 * @param goods.parentId  the batch they were split from
 */
export async function findEqualAtHome(
  tx: Transaction,
  goods: Omit<Batch, 'id' | 'currentPlaceId'> & { id?: string; parentId?: string | null },
): Promise<{ batch: Batch; version: number } | null> {
  const { id, parentId } = goods
  const line = await tx.threadLine.findFirst({
    where: { threads: { some: { id: goods.threadId } } },
    select: { lotsMatter: true },
  })
  const mustBeKin = goods.lot === null && line?.lotsMatter === true
  const kin = [
    ...(parentId ? [{ id: parentId }, { parentId }] : []), //
    ...(id ? [{ parentId: id }] : []),
  ]
  if (mustBeKin && kin.length === 0) return null
  const { batches, versions } = await readBatches(tx, {
    threadId: goods.threadId,
    ownerId: goods.ownerId,
    lot: goods.lot,
    putUpWord: goods.putUpWord,
    putUpStrandTenths: goods.putUpStrandTenths,
    homePlaceId: goods.homePlaceId,
    currentPlaceId: goods.homePlaceId,
    ...(id && { id: { not: id } }),
    ...(mustBeKin && { OR: kin }),
  })
  const batch = batches[0]
  return batch ? { batch, version: versions.get(batch.id) as number } : null
}
