import 'server-only'
import { walkRanks } from '#lib/place/walk-order'
import type { ProjectStatus } from '#lib/project/life-cycle'
import { compareExact } from '#lib/stock/batch'
import { putUpsIn } from '#lib/stock/unpack'
import { compareCodes } from '#lib/thread/code-order'
import { database, type Transaction } from '../client'
import { type CameFrom, readCameFrom } from '../place/beyond-place'
import {
  chartColumns,
  clothColumns,
  notionColumns,
  readChart,
  readCloth,
  readNotion,
  readThread,
  type ThingHere,
  type ThreadHere,
  threadColumns,
} from '../place/contents'
import { openProjects } from '../place/place-counts'
import { type PlaceRecord, placeColumns } from '../place/place-rows'
import { readPlacesAround } from '../project/queries'

type Owned = { owner: { id: string; name: string } }
export type UnpackProject = { id: string; title: string; status: ProjectStatus; version: number }

export type UnpackThread = ThreadHere &
  Owned & {
    putUpStrandTenths: number
    /** What a full put-up of its line weighs; null when nobody has said. */
    putUpMilligrams: number | null
    /** The projects it may have been used for, the likeliest first. */
    projects: { id: string; title: string }[]
  }
export type UnpackThing = Exclude<ThingHere, { noun: 'thread' }> & Owned

export type UnpackSheet = {
  place: PlaceRecord
  /** In walking order of their homes; what has no home last. */
  threads: UnpackThread[]
  things: UnpackThing[]
  /** Projects under way whose bag this is, and those whose promised thread lies in it. */
  projects: UnpackProject[]
  /** On a put-back list that is not ticked off yet. */
  onLists: { walkId: string; title: string; things: number }[]
  /** Open questions where a thing may be that was here last. */
  missing: number
  /** Things that live in it: they stay. */
  livesHere: number
}

/** In a bag there is as much as one carries; more is a drawer, and is moved, not unpacked. */
export const mostThings = 800

/** What lies in a place, and in what is inside it, for a while: what is to be taken out and put back. Null when there is no such place. */
export async function readUnpackSheet(placeId: string): Promise<UnpackSheet | null> {
  const { prisma } = database()
  const place = (await prisma.place.findFirst({
    where: { id: placeId, goneAt: null },
    select: placeColumns,
  })) as PlaceRecord | null
  if (!place) return null
  const away = await readAwayIn(prisma, place)
  const owner = { owner: { select: { id: true, name: true } } } as const
  const these = (ids: readonly string[]) => ({ id: { in: [...ids] } })
  const lives = { goneAt: null, homePlace: { path: { startsWith: place.path } } }
  const [batches, cloth, charts, notions, projects, walks, missing, ...livesHere] = await Promise.all([
    prisma.batch.findMany({
      where: these(away.batchIds),
      select: {
        ...threadColumns,
        ...owner,
        putUpStrandTenths: true,
        thread: {
          select: {
            ...threadColumns.thread.select,
            line: { select: { ...threadColumns.thread.select.line.select, putUpMilligrams: true } },
          },
        },
      },
    }),
    prisma.clothPiece.findMany({ where: these(away.clothPieceIds), select: { ...clothColumns, ...owner } }),
    prisma.chart.findMany({ where: these(away.chartIds), select: { ...chartColumns, ...owner } }),
    prisma.notion.findMany({ where: these(away.notionIds), select: { ...notionColumns, ...owner } }),
    prisma.project.findMany({
      where: {
        ...openProjects,
        OR: [{ place: { path: { startsWith: place.path } } }, { promises: { some: { batchId: { in: away.batchIds } } } }],
      },
      select: { id: true, status: true, version: true, design: { select: { title: true } } },
      orderBy: { id: 'asc' },
    }),
    prisma.walk.findMany({
      where: { kind: 'put-back', status: 'open', place: { path: { startsWith: place.path } } },
      select: { id: true, title: true, _count: { select: { lines: { where: { carriedAt: null } } } } },
      orderBy: [{ startedAt: 'asc' }, { id: 'asc' }],
    }),
    prisma.missingThing.count({ where: { status: 'open', lastSeenPlace: { path: { startsWith: place.path } } } }),
    prisma.batch.count({ where: lives }),
    prisma.clothPiece.count({ where: lives }),
    prisma.chart.count({ where: lives }),
    prisma.notion.count({ where: lives }),
  ])
  const ownerIds = [...new Set(batches.map((batch) => batch.owner.id))]
  const [cameFrom, around] = await Promise.all([
    readCameFrom(placeId, ownerIds),
    readPlacesAround(
      prisma,
      [...batches, ...cloth, ...charts, ...notions].map(({ homePlace }) => homePlace?.id ?? null),
    ),
  ])
  const inBag = projects.map(({ design, status, ...project }) => ({
    ...project,
    title: design.title,
    status: status as ProjectStatus,
  }))
  const ranks = walkRanks([...around.values()])
  const rankOf = ({ home }: ThingHere) => ranks.get(home?.id ?? '') ?? Number.MAX_SAFE_INTEGER
  const threads = batches.map(
    (row): UnpackThread => ({
      ...readThread(row),
      owner: row.owner,
      putUpStrandTenths: row.putUpStrandTenths,
      putUpMilligrams: row.thread.line.putUpMilligrams,
      projects: candidates(cameFrom.get(row.id), inBag),
    }),
  )
  const things = [
    ...cloth.map((row): UnpackThing => ({ ...readCloth(row), owner: row.owner })),
    ...charts.map((row): UnpackThing => ({ ...readChart(row), owner: row.owner })),
    ...notions.map((row): UnpackThing => ({ ...readNotion(row), owner: row.owner })),
  ] as UnpackThing[]
  return {
    place,
    threads: threads.sort(
      (a, b) =>
        rankOf(a) - rankOf(b) ||
        compareExact(a.makerName, b.makerName) ||
        compareCodes(a.code, b.code) ||
        compareExact(a.lot, b.lot) ||
        compareExact(a.id, b.id),
    ),
    things: things.sort((a, b) => rankOf(a) - rankOf(b) || compareExact(a.id, b.id)),
    projects: inBag,
    onLists: walks
      .map(({ id, title, _count: count }) => ({ walkId: id, title, things: count.lines }))
      .filter((walk) => walk.things > 0),
    missing,
    livesHere: livesHere.reduce((sum, count) => sum + count, 0),
  }
}

/** Promised to, else taken for, else whose bag it is. */
function candidates(came: CameFrom | undefined, inBag: readonly UnpackProject[]): { id: string; title: string }[] {
  const likely = [...(came?.promisedTo ?? []), ...(came?.takenFor ? [came.takenFor] : []), ...inBag]
  return [...new Map(likely.map(({ id, title }) => [id, { id, title }])).values()]
}

export type AwayIn = { batchIds: string[]; clothPieceIds: string[]; chartIds: string[]; notionIds: string[] }

/**
 * What lies in a place without living there, of every owner: less what is on its way home on a list, what is being looked for, and rows
 * of thread of which nothing is left.
 */
export async function readAwayIn(tx: Transaction, place: { path: string }): Promise<AwayIn> {
  const inside = { path: { startsWith: place.path } }
  const lies = {
    goneAt: null,
    currentPlace: inside,
    OR: [{ homePlaceId: null }, { homePlace: { NOT: inside } }],
    walkLines: { none: { carriedAt: null, walk: { kind: 'put-back', status: 'open' } } },
    missing: { none: { status: 'open' } },
  }
  const ask = { select: { id: true }, orderBy: { id: 'asc' }, take: mostThings } as const
  const batches = await tx.batch.findMany({
    where: lies,
    select: { id: true, wholePutUps: true, partStrandTenths: true, partCertainty: true },
    orderBy: { id: 'asc' },
    take: mostThings,
  })
  const cloth = await tx.clothPiece.findMany({ where: lies, ...ask })
  const charts = await tx.chart.findMany({ where: lies, ...ask })
  const notions = await tx.notion.findMany({ where: lies, ...ask })
  return {
    batchIds: batches
      .filter((batch) => putUpsIn({ ...batch, partCertainty: batch.partCertainty as ThreadHere['partCertainty'] }) > 0)
      .map(({ id }) => id),
    clothPieceIds: cloth.map(({ id }) => id),
    chartIds: charts.map(({ id }) => id),
    notionIds: notions.map(({ id }) => id),
  }
}
