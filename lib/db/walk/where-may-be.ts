import 'server-only'
import type { Place } from '#lib/place/place'
import { walkRanks } from '#lib/place/walk-order'
import { type Batch, compareExact } from '#lib/stock/batch'
import { freeOfBatch } from '#lib/stock/free-stock'
import type { MovementKind } from '#lib/stock/stock-change'
import { database } from '../client'
import { readThreadStory } from '../movement/thread-story'
import type { PlaceTag } from '../place/place-rows'
import { readPlacesAround } from '../project/queries'
import { readBatches } from '../stock/apply-stock-change'
import { readThreadTags, type ThreadTag } from '../thread/thread-tag'
import { batchIdOf } from './walk-row'

/** One line of the journal: who moved it last. */
export type LastMoved = { at: Date; kind: MovementKind; who: string | null; from: string | null; to: string | null }

/** Another batch: what there is of it, where, and whose it is to be. */
export type OtherBatch = {
  batch: Batch
  thread: ThreadTag
  place: PlaceTag | null
  home: PlaceTag | null
  /** Free to this project beyond what it is promised of it already. */
  freeStrandTenths: number
  promisedTo: { id: string; title: string }[]
  lastMoved: LastMoved | null
  /** It would stand in for the thread that is wanted. */
  isStandIn: boolean
}

export type WhereMayBe = {
  lineId: string
  /** Of the thing itself. */
  lastMoved: LastMoved | null
  /** Homes it, or others of its thread, had before; the one left last first. */
  formerHomes: { place: { id: string; label: string }; until: Date }[]
  /** In walking order; stand-ins last. */
  others: OtherBatch[]
}

/** A thing was not where the list says: where it may be, and what could be taken instead. Null when there is no such line. */
export async function readWhereMayBe(walkId: string, lineId: string): Promise<WhereMayBe | null> {
  const { prisma } = database()
  const line = await prisma.walkLine.findFirst({
    where: { id: lineId, walkId },
    select: {
      ...{ batchId: true, insteadBatchId: true, clothPieceId: true, chartId: true, notionId: true, projectId: true },
    },
  })
  if (!line) return null
  const batchId = batchIdOf(line)
  const { clothPieceId, chartId, notionId, projectId } = line
  const thing = batchId ? { batchId } : clothPieceId ? { clothPieceId } : chartId ? { chartId } : { notionId }
  const lastMoved = (await readLastMoved(thing)).at(0)?.moved ?? null
  const own = batchId
    ? await prisma.batch.findUnique({ where: { id: batchId }, select: { threadId: true, ownerId: true } })
    : null
  if (!own) return { lineId, lastMoved, formerHomes: [], others: [] }

  const swaps = await prisma.projectSwap.findMany({
    where: { projectId: projectId ?? '', standInThreadId: own.threadId },
    select: { threadId: true },
  })
  const charted = swaps[0]?.threadId ?? own.threadId
  const accepted = await prisma.standIn.findMany({
    where: { threadId: charted, standIn: { goneAt: null } },
    select: { standInThreadId: true },
    orderBy: { id: 'asc' },
  })
  const threadIds = [own.threadId, charted, ...accepted.map(({ standInThreadId }) => standInThreadId)]
  const [stock, story] = await Promise.all([
    readBatches(prisma, { threadId: { in: [...new Set(threadIds)] }, ownerId: own.ownerId, id: { not: batchId ?? '' } }),
    readThreadStory(own.threadId, { ownerIds: [own.ownerId], page: 1 }),
  ])
  const there = stock.batches.filter(({ wholePutUps, partCertainty }) => wholePutUps > 0 || partCertainty !== 'none')
  const [tags, places, moved, titles] = await Promise.all([
    readThreadTags([...new Set(threadIds)]),
    readPlacesAround(
      prisma,
      there.flatMap((batch) => [batch.currentPlaceId, batch.homePlaceId]),
    ),
    readLastMoved({ batchId: { in: there.map(({ id }) => id) } }),
    prisma.project.findMany({
      where: { promises: { some: { batchId: { in: there.map(({ id }) => id) } } } },
      select: { id: true, design: { select: { title: true } } },
    }),
  ])
  const movedOf = new Map(moved.map(({ id, moved: last }) => [id, last]))
  const titleOf = new Map(titles.map(({ id, design }) => [id, design.title]))
  const tagOf = (placeId: string | null): Place | null => places.get(placeId ?? '') ?? null
  const ranks = walkRanks([...places.values()])

  const others = there.map((batch): OtherBatch => {
    const promises = stock.promises.filter((promise) => promise.batchId === batch.id)
    const ours = promises.find((promise) => promise.projectId === projectId)?.strandTenths ?? 0
    const free = freeOfBatch(batch, promises, projectId).freeStrandTenths
    return {
      batch,
      thread: tags.get(batch.threadId) as ThreadTag,
      place: tagOf(batch.currentPlaceId ?? batch.homePlaceId),
      home: tagOf(batch.homePlaceId),
      freeStrandTenths: Math.max(0, free - ours),
      promisedTo: promises.map((promise) => ({ id: promise.projectId, title: titleOf.get(promise.projectId) ?? '' })),
      lastMoved: movedOf.get(batch.id) ?? null,
      isStandIn: batch.threadId !== own.threadId,
    }
  })
  const rank = ({ place }: OtherBatch) => (place && ranks.get(place.id)) ?? Number.MAX_SAFE_INTEGER
  others.sort((a, b) => Number(a.isStandIn) - Number(b.isStandIn) || rank(a) - rank(b) || compareExact(a.batch.id, b.batch.id))
  return {
    lineId,
    lastMoved,
    formerHomes: story.formerHomes.map(({ place, until }) => ({ place, until })),
    others,
  }
}

/** The last line of the journal about each of these things. */
async function readLastMoved(thing: object): Promise<{ id: string; moved: LastMoved }[]> {
  const { prisma } = database()
  const rows = await prisma.movement.findMany({
    where: thing,
    select: {
      ...{ batchId: true, at: true, kind: true, who: true },
      fromPlace: { select: { label: true } },
      toPlace: { select: { label: true } },
    },
    orderBy: [{ revision: 'desc' }, { id: 'desc' }],
    take: 300,
  })
  const last = new Map<string, LastMoved>()
  for (const { batchId, at, kind, who, fromPlace, toPlace } of rows)
    if (!last.has(batchId ?? ''))
      last.set(batchId ?? '', {
        ...{ at, kind: kind as MovementKind, who },
        ...{ from: fromPlace?.label ?? null, to: toPlace?.label ?? null },
      })
  return [...last].map(([id, moved]) => ({ id, moved }))
}
