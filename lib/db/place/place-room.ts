import 'server-only'
import type { RoomGiven } from '#lib/place/merge-places'
import { database, type Transaction } from '../client'
import { newId } from '../new-id'

type Reader = Pick<Transaction, 'place' | 'placeCapacity'>

/** What a place is said to take. */
export async function readRoom(placeId: string, tx: Reader = database().prisma): Promise<RoomGiven> {
  const { capacity } = await tx.place.findUniqueOrThrow({ where: { id: placeId }, select: { capacity: true } })
  const putUps = await tx.placeCapacity.findMany({
    where: { placeId },
    select: { putUpWord: true, most: true },
    orderBy: { id: 'asc' },
  })
  return { capacity, putUps }
}

/** Write how many of each kind of put-up a place takes, in place of what was said before. */
export async function writePutUps(tx: Transaction, placeId: string, putUps: RoomGiven['putUps']): Promise<void> {
  await tx.placeCapacity.deleteMany({ where: { placeId } })
  if (putUps.length > 0) await tx.placeCapacity.createMany({ data: putUps.map((putUp) => ({ id: newId(), placeId, ...putUp })) })
}

/** A place's room written anew. The caller raises its version. */
export async function writeRoom(tx: Transaction, placeId: string, { capacity, putUps }: RoomGiven): Promise<void> {
  await tx.place.update({ where: { id: placeId }, data: { capacity } })
  await writePutUps(tx, placeId, putUps)
}
