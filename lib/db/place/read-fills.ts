import 'server-only'
import { fillsOf, type Holding, type PlaceFill, type PutUpRoom } from '#lib/place/capacity'
import type { Place } from '#lib/place/place'
import { isOut } from '#lib/stock/batch'
import { database } from '../client'

type Tally = {
  putUps: Map<string, number>
  here: Set<string>
  out: Set<string>
  sorts: Set<Holding['sort']>
  hereCount: number
  outCount: number
}

/**
 * How full every place is that can say so, with everybody's goods in it: a drawer is as full as it is, whoever they belong to. What is out
 * keeps its room at home and takes room where it lies.
 */
export async function readFills(places: readonly Place[]): Promise<Map<string, PlaceFill>> {
  const { prisma } = database()
  const there = { goneAt: null }
  const groups = {
    by: ['homePlaceId', 'currentPlaceId'] as ('homePlaceId' | 'currentPlaceId')[],
    where: there,
    _count: true as const,
  }
  const [capacities, batches, threads, lines, cloth, charts, notions] = await Promise.all([
    prisma.placeCapacity.findMany({ select: { placeId: true, putUpWord: true, most: true }, orderBy: { id: 'asc' } }),
    prisma.batch.findMany({
      where: { ...there, OR: [{ wholePutUps: { gt: 0 } }, { partCertainty: { not: 'none' } }] },
      select: {
        ...{ threadId: true, putUpWord: true, wholePutUps: true, partCertainty: true },
        ...{ homePlaceId: true, currentPlaceId: true },
      },
    }),
    prisma.thread.findMany({ select: { id: true, lineId: true } }),
    prisma.threadLine.findMany({ select: { id: true, putUpWord: true } }),
    prisma.clothPiece.groupBy(groups),
    prisma.chart.groupBy(groups),
    prisma.notion.groupBy(groups),
  ])
  const roomOf = new Map<string, PutUpRoom[]>()
  for (const { placeId, putUpWord, most } of capacities)
    roomOf.set(placeId, [...(roomOf.get(placeId) ?? []), { putUpWord, most }])

  const tallies = new Map<string, Tally>()
  const pathOf = new Map(places.map(({ id, path }) => [id, path.split('/').filter((part) => part !== '')]))
  const around = (placeId: string | null): Tally[] =>
    (pathOf.get(placeId ?? '') ?? []).map((id) => {
      const known = tallies.get(id)
      if (known) return known
      const fresh: Tally = { putUps: new Map(), here: new Set(), out: new Set(), sorts: new Set(), hereCount: 0, outCount: 0 }
      tallies.set(id, fresh)
      return fresh
    })

  const lineOf = new Map(threads.map(({ id, lineId }) => [id, lineId]))
  const wordOf = new Map(lines.map(({ id, putUpWord }) => [id, putUpWord]))
  for (const batch of batches) {
    const word = batch.putUpWord ?? wordOf.get(lineOf.get(batch.threadId) ?? '') ?? ''
    const count = batch.wholePutUps + (batch.partCertainty === 'none' ? 0 : 1)
    const current = around(batch.currentPlaceId ?? batch.homePlaceId)
    const home = isOut(batch) ? around(batch.homePlaceId) : []
    for (const tally of new Set([...current, ...home])) {
      tally.putUps.set(word, (tally.putUps.get(word) ?? 0) + count)
      tally.sorts.add('threads')
    }
    for (const tally of current) tally.here.add(batch.threadId)
    for (const tally of home) if (!current.includes(tally)) tally.out.add(batch.threadId)
  }
  for (const [sort, rows] of [
    ['pieces', cloth],
    ['charts', charts],
    ['notions', notions],
  ] as const)
    for (const row of rows) {
      const current = around(row.currentPlaceId ?? row.homePlaceId)
      const home = isOut(row) ? around(row.homePlaceId) : []
      for (const tally of current) tally.hereCount += row._count
      for (const tally of home) if (!current.includes(tally)) tally.outCount += row._count
      for (const tally of new Set([...current, ...home])) tally.sorts.add(sort)
    }

  const holdingOf = new Map<string, Holding>()
  for (const [id, { putUps, here, out, sorts, hereCount, outCount }] of tallies) {
    const [only] = sorts
    holdingOf.set(id, {
      putUps: [...putUps].map(([putUpWord, count]) => ({ putUpWord, count })),
      here: here.size + hereCount,
      out: [...out].filter((threadId) => !here.has(threadId)).length + outCount,
      sort: sorts.size === 1 && only ? only : 'things',
    })
  }
  return fillsOf(places, roomOf, holdingOf)
}
