import 'server-only'
import type { Place } from '#lib/place/place'
import { openStatuses } from '#lib/project/life-cycle'
import { isOut } from '#lib/stock/batch'
import { database } from '../client'

/** What lies in a place and everything inside it, and what lives there but is out of its own place. */
export type PlaceCounts = {
  /** Different threads, whatever their lots. */
  threads: number
  wholePutUps: number
  cloth: number
  charts: number
  /** Rows of them: a hoop, a lot of needles of one size. */
  notions: number
  projects: number
  out: number
}

/** A thing, or several alike, that lies somewhere. */
type Lying = {
  noun: 'thread' | 'cloth' | 'chart' | 'notion'
  threadId: string | null
  many: number
  wholePutUps: number
  homePlaceId: string | null
  currentPlaceId: string | null
}

const nothing = (): PlaceCounts => ({ threads: 0, wholePutUps: 0, cloth: 0, charts: 0, notions: 0, projects: 0, out: 0 })

/** Projects that may have things in places and keep cloth; what is finished or given up has been put away. */
export const openProjects = { goneAt: null, status: { in: [...openStatuses] } }

/** What each place holds, with all inside it, of these owners' goods; and what has no place at all. */
export async function countInPlaces(
  ownerIds: readonly string[],
  places: readonly Place[],
): Promise<{ byPlace: Map<string, PlaceCounts>; nowhere: PlaceCounts; everywhere: PlaceCounts }> {
  const { prisma } = database()
  const owned = { ownerId: { in: [...ownerIds] }, goneAt: null }
  const [batches, cloth, charts, notions, projects] = await Promise.all([
    prisma.batch.findMany({
      where: owned,
      select: { threadId: true, wholePutUps: true, homePlaceId: true, currentPlaceId: true },
    }),
    prisma.clothPiece.groupBy({ by: ['homePlaceId', 'currentPlaceId'], where: owned, _count: true }),
    prisma.chart.groupBy({ by: ['homePlaceId', 'currentPlaceId'], where: owned, _count: true }),
    prisma.notion.groupBy({ by: ['homePlaceId', 'currentPlaceId'], where: owned, _count: true }),
    prisma.project.groupBy({
      by: ['placeId'],
      where: { ...openProjects, ownerId: owned.ownerId, placeId: { not: null } },
      _count: true,
    }),
  ])

  const pathOf = new Map(places.map((place) => [place.id, place.path]))
  const byPlace = new Map(places.map((place) => [place.id, nothing()]))
  const nowhere = nothing()
  const everywhere = nothing()
  const threadsOf = new Map<PlaceCounts, Set<string>>()
  const around = (placeId: string | null): PlaceCounts[] => {
    const path = placeId === null ? undefined : pathOf.get(placeId)
    if (path === undefined) return []
    const chain = path.split('/').filter((id) => id !== '')
    return chain.flatMap((id) => byPlace.get(id) ?? []).concat(everywhere)
  }
  const add = (counts: PlaceCounts, thing: Lying) => {
    if (thing.threadId !== null) {
      const threads = threadsOf.get(counts) ?? new Set()
      threadsOf.set(counts, threads.add(thing.threadId))
      counts.threads = threads.size
      counts.wholePutUps += thing.wholePutUps
    } else if (thing.noun === 'cloth') counts.cloth += thing.many
    else if (thing.noun === 'notion') counts.notions += thing.many
    else counts.charts += thing.many
  }

  const lying: Lying[] = [
    ...batches.map((row) => ({ ...row, noun: 'thread' as const, many: 1 })),
    ...cloth.map((row) => ({ ...row, noun: 'cloth' as const, threadId: null, many: row._count, wholePutUps: 0 })),
    ...charts.map((row) => ({ ...row, noun: 'chart' as const, threadId: null, many: row._count, wholePutUps: 0 })),
    ...notions.map((row) => ({ ...row, noun: 'notion' as const, threadId: null, many: row._count, wholePutUps: 0 })),
  ]
  for (const thing of lying) {
    const here = around(thing.currentPlaceId ?? thing.homePlaceId)
    for (const counts of here) add(counts, thing)
    if (here.length === 0) add(nowhere, thing)
    if (isOut(thing)) for (const counts of around(thing.homePlaceId)) counts.out += thing.many
  }
  for (const row of projects) for (const counts of around(row.placeId)) counts.projects += row._count
  return { byPlace, nowhere, everywhere }
}
