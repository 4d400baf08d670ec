import 'server-only'
import { openStatuses } from '#lib/project/life-cycle'
import { compareExact, isOut, type PartCertainty } from '#lib/stock/batch'
import { database } from '../client'

type Tag = { id: string; label: string }
type ProjectTag = { id: string; title: string }

/** Where one batch is, and who has it. */
export type Whereabout = {
  batchId: string
  ownerName: string
  lot: string | null
  putUpWord: string | null
  wholePutUps: number
  partStrandTenths: number
  partCertainty: PartCertainty
  home: Tag | null
  current: Tag | null
  isOut: boolean
  outSince: Date | null
  /** The projects whose bag it lies in, away from home. */
  inBagOf: ProjectTag[]
  /** The projects it is promised to. */
  promisedTo: ProjectTag[]
}

/** Threads asked about at once: those of one page of what was found. */
const mostThreads = 100
/** Ids named in one statement; with more it is as quick to read all. SQLite takes no more than 999. */
const idsAtOnce = 500

/**
 * Where every batch of these threads is that is not used up, by thread: at home first, then what is out, the longest out first.
 *
 * @throws {RangeError} if more than a hundred threads are asked about.
 */
export async function listWhereabouts(
  threadIds: readonly string[],
  ownerIds: readonly string[],
): Promise<Map<string, Whereabout[]>> {
  if (threadIds.length > mostThreads) throw new RangeError(`listWhereabouts: ${threadIds.length} threads`)
  const { prisma } = database()
  const tag = { select: { id: true, label: true } } as const
  const where = {
    threadId: { in: [...threadIds] },
    ownerId: { in: [...ownerIds] },
    goneAt: null,
    OR: [{ wholePutUps: { gt: 0 } }, { partCertainty: { not: 'none' } }],
  }
  const [batches, promises] = await Promise.all([
    prisma.batch.findMany({
      where,
      select: {
        id: true,
        threadId: true,
        ownerId: true,
        lot: true,
        putUpWord: true,
        wholePutUps: true,
        partStrandTenths: true,
        partCertainty: true,
        homePlaceId: true,
        currentPlaceId: true,
        outSince: true,
      },
      orderBy: { id: 'asc' },
    }),
    prisma.stockPromise.findMany({
      where: { batch: where },
      select: { batchId: true, projectId: true },
      orderBy: { id: 'asc' },
    }),
  ])
  const placeIds = [
    ...new Set(batches.flatMap(({ homePlaceId, currentPlaceId }) => [homePlaceId ?? [], currentPlaceId ?? []].flat())),
  ]
  const awayIds = [...new Set(batches.filter(isOut).flatMap(({ currentPlaceId }) => currentPlaceId ?? []))]
  const projectColumns = { id: true, placeId: true, design: { select: { title: true } } } as const
  const [owners, places, bagged, promised] = await Promise.all([
    prisma.owner.findMany({ where: { id: { in: [...ownerIds] } }, select: { id: true, name: true } }),
    prisma.place.findMany({ where: placeIds.length > idsAtOnce ? {} : { id: { in: placeIds } }, ...tag }),
    prisma.project.findMany({
      where: {
        goneAt: null,
        status: { in: [...openStatuses] },
        placeId: awayIds.length > idsAtOnce ? { not: null } : { in: awayIds },
      },
      select: projectColumns,
      orderBy: { id: 'asc' },
    }),
    prisma.project.findMany({
      where: { goneAt: null, promises: { some: { batch: where } } },
      select: projectColumns,
    }),
  ])
  const nameOf = new Map(owners.map(({ id, name }) => [id, name]))
  const placeOf = new Map(places.map((place) => [place.id, place]))
  const named = ({ id, design }: { id: string; design: { title: string } }): ProjectTag => ({ id, title: design.title })
  const promisedOf = new Map(promised.map((project) => [project.id, named(project)]))
  const byThread = new Map<string, Whereabout[]>()
  for (const { id, threadId, ownerId, homePlaceId, currentPlaceId, partCertainty, ...batch } of batches) {
    const out = isOut({ homePlaceId, currentPlaceId })
    const whereabout: Whereabout = {
      ...batch,
      batchId: id,
      ownerName: nameOf.get(ownerId) ?? '',
      partCertainty: partCertainty as PartCertainty,
      home: placeOf.get(homePlaceId ?? '') ?? null,
      current: placeOf.get(currentPlaceId ?? homePlaceId ?? '') ?? null,
      isOut: out,
      inBagOf: out ? bagged.filter(({ placeId }) => placeId === currentPlaceId).map(named) : [],
      promisedTo: promises.flatMap(({ batchId, projectId }) => (batchId === id ? (promisedOf.get(projectId) ?? []) : [])),
    }
    byThread.set(threadId, [...(byThread.get(threadId) ?? []), whereabout])
  }
  const since = ({ outSince }: Whereabout) => outSince?.getTime() ?? 0
  for (const list of byThread.values())
    list.sort((a, b) => Number(a.isOut) - Number(b.isOut) || since(a) - since(b) || compareExact(a.batchId, b.batchId))
  return byThread
}
