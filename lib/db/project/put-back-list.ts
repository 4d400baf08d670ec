import 'server-only'
import { walkRanks } from '#lib/place/walk-order'
import { compareExact } from '#lib/stock/batch'
import { database } from '../client'
import type { PlaceTag } from '../place/place-rows'
import { readThreadTags, type ThreadTag } from '../thread/thread-tag'
import { readPlacesAround } from './queries'

type Amount = { wholePutUps: number; partStrandTenths: number }

type PutBackLine = Amount & { batchId: string; thread: ThreadTag; lot: string | null; place: PlaceTag | null }

export type PutBackList = {
  /** In walking order. */
  back: PutBackLine[]
  /** Put-ups of which nothing came back. */
  usedUp: { thread: ThreadTag; lot: string | null; putUps: number }[]
  /** Taken for the project, neither returned nor used: still out. */
  missing: (Amount & { batchId: string; thread: ThreadTag; lot: string | null; lastSeen: PlaceTag | null })[]
  /** Strand tenths used, by thread. */
  used: { thread: ThreadTag; strandTenths: number }[]
}

const putUpsIn = (amount: Amount) => amount.wholePutUps + (amount.partStrandTenths > 0 ? 1 : 0)

/**
 * What became of everything a project had in its bag when it was finished or given up, read from the journal, so that it can be put
 * back, or checked, also later. Null while nothing was put back or used.
 */
export async function readPutBackList(projectId: string): Promise<PutBackList | null> {
  const { prisma } = database()
  const movements = await prisma.movement.findMany({
    where: { projectId, batchId: { not: null }, kind: { in: ['take', 'use', 'return'] } },
    select: {
      id: true,
      revision: true,
      kind: true,
      batchId: true,
      wholeDelta: true,
      partDeltaStrandTenths: true,
      toPlaceId: true,
    },
    orderBy: [{ revision: 'asc' }, { id: 'asc' }],
  })
  const closing = movements.findLast(({ kind }) => kind !== 'take')?.revision
  if (closing === undefined) return null
  const batchIds = [...new Set(movements.flatMap(({ batchId }) => batchId ?? []))]
  const [batches, sums] = await Promise.all([
    prisma.batch.findMany({
      where: { id: { in: batchIds } },
      select: {
        ...{ id: true, threadId: true, lot: true, putUpStrandTenths: true, homePlaceId: true, currentPlaceId: true },
        ...{ outSince: true, goneAt: true, wholePutUps: true, partStrandTenths: true },
      },
    }),
    prisma.movement.groupBy({
      by: ['batchId'],
      // By relation: a grouped sum of a large kit's batches, asked for id by id, is more than SQLite takes.
      where: { batch: { movements: { some: { projectId } } }, revision: { lt: closing } },
      _sum: { wholeDelta: true, partDeltaStrandTenths: true },
    }),
  ])
  batches.sort((a, b) => compareExact(a.id, b.id))
  const before = new Map(
    sums.map(({ batchId, _sum: sum }) => [
      batchId,
      { wholePutUps: sum.wholeDelta ?? 0, partStrandTenths: sum.partDeltaStrandTenths ?? 0 },
    ]),
  )
  const [tags, places] = await Promise.all([
    readThreadTags(batches.map((batch) => batch.threadId)),
    readPlacesAround(prisma, [...movements.map(({ toPlaceId }) => toPlaceId), ...batches.map((batch) => batch.currentPlaceId)]),
  ])

  const list: PutBackList = { back: [], usedUp: [], missing: [], used: [] }
  const usedByThread = new Map<string, number>()
  for (const batch of batches) {
    const thread = tags.get(batch.threadId) as ThreadTag
    const { lot } = batch
    const own = movements.filter(({ batchId, revision }) => batchId === batch.id && revision === closing)
    const use = own.find(({ kind }) => kind === 'use')
    const back = own.find(({ kind }) => kind === 'return')
    const held = before.get(batch.id) ?? { wholePutUps: 0, partStrandTenths: 0 }
    const left = {
      wholePutUps: held.wholePutUps + (use?.wholeDelta ?? 0),
      partStrandTenths: held.partStrandTenths + (use?.partDeltaStrandTenths ?? 0),
    }
    if (use) {
      const length = -(use.wholeDelta * batch.putUpStrandTenths + use.partDeltaStrandTenths)
      usedByThread.set(batch.threadId, (usedByThread.get(batch.threadId) ?? 0) + length)
      const putUps = putUpsIn(held) - putUpsIn(left)
      if (putUps > 0) list.usedUp.push({ thread, lot, putUps })
    }
    if (back && putUpsIn(left) > 0)
      list.back.push({ ...left, batchId: batch.id, thread, lot, place: places.get(back.toPlaceId ?? '') ?? null })
    const lastTake = movements.findLast(({ batchId, kind }) => batchId === batch.id && kind === 'take')
    const isStillThere = lastTake !== undefined && batch.currentPlaceId === lastTake.toPlaceId
    if (own.length === 0 && isStillThere && batch.outSince !== null && batch.goneAt === null) {
      const { wholePutUps, partStrandTenths } = batch
      const lastSeen = places.get(batch.currentPlaceId ?? '') ?? null
      list.missing.push({ wholePutUps, partStrandTenths, batchId: batch.id, thread, lot, lastSeen })
    }
  }
  const ranks = walkRanks([...places.values()])
  const rankOf = (place: PlaceTag | null) => (place && ranks.get(place.id)) ?? Number.MAX_SAFE_INTEGER
  list.back.sort((a, b) => rankOf(a.place) - rankOf(b.place) || compareExact(a.batchId, b.batchId))
  list.used = [...usedByThread].map(([threadId, strandTenths]) => ({ thread: tags.get(threadId) as ThreadTag, strandTenths }))
  return list
}
