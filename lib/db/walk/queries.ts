import 'server-only'
import type { Lab } from '#lib/colour/lab'
import type { Place } from '#lib/place/place'
import { type WalkKind, type WalkLineStatus, type WalkProgress, type WalkStatus, walkProgress } from '#lib/project/walk'
import type { PartCertainty } from '#lib/stock/batch'
import { database } from '../client'
import { labOf } from '../lab-of'
import { type PlaceTag, placeTagColumns } from '../place/place-rows'
import { readRevision } from '../read-revision'
import { type ThreadTag, threadTagColumns, threadTagOf } from '../thread/thread-tag'
import { readInParts } from './in-parts'
import { batchIdOf } from './walk-row'

/** A walk without its lines. */
export type WalkRecord = {
  id: string
  kind: WalkKind
  title: string
  status: WalkStatus
  /** The bag that is unpacked. */
  place: PlaceTag | null
  startedAt: Date
  startedBy: string | null
  closedAt: Date | null
  closedBy: string | null
  version: number
}

export type WalkListed = WalkRecord & { progress: WalkProgress }

const walkColumns = {
  ...{ id: true, kind: true, title: true, status: true, startedAt: true, startedBy: true, closedAt: true, closedBy: true },
  version: true,
  place: placeTagColumns,
} as const

type WalkRow = Omit<WalkRecord, 'kind' | 'status' | 'place'> & {
  kind: string
  status: string
  place: (Omit<PlaceTag, 'kind'> & { kind: string }) | null
}

const walkOf = (row: WalkRow): WalkRecord => ({
  ...row,
  kind: row.kind as WalkKind,
  status: row.status as WalkStatus,
  place: row.place as PlaceTag | null,
})

async function withProgress(walks: readonly WalkRecord[]): Promise<WalkListed[]> {
  const rows = await readInParts(
    walks.map(({ id }) => id),
    (ids) =>
      database().prisma.walkLine.findMany({
        where: { walkId: { in: ids } },
        select: {
          ...{ walkId: true, status: true, carriedAt: true },
          ...{ batchId: true, clothPieceId: true, chartId: true, notionId: true },
        },
      }),
  )
  const linesOf = new Map<string, Parameters<typeof walkProgress>[0][number][]>()
  for (const { walkId, status, carriedAt, ...thing } of rows) {
    const line = { ...thing, status: status as WalkLineStatus, isCarried: carriedAt !== null }
    const lines = linesOf.get(walkId)
    if (lines) lines.push(line)
    else linesOf.set(walkId, [line])
  }
  return walks.map((walk) => ({ ...walk, progress: walkProgress(linesOf.get(walk.id) ?? []) }))
}

/** Walks that are open, the newest first; with owners named, those past something of theirs. */
export async function listOpenWalks(ownerIds?: readonly string[]): Promise<WalkListed[]> {
  const theirs = ownerIds && { ownerId: { in: [...ownerIds] } }
  const rows = await database().prisma.walk.findMany({
    where: {
      status: 'open',
      ...(theirs && {
        lines: { some: { OR: [{ batch: theirs }, { clothPiece: theirs }, { chart: theirs }, { notion: theirs }] } },
      }),
    },
    select: walkColumns,
    orderBy: [{ startedAt: 'desc' }, { id: 'desc' }],
  })
  return withProgress(rows.map(walkOf))
}

/** Open walks that pull for a project. */
export async function listWalksOf(projectId: string): Promise<WalkListed[]> {
  const rows = await database().prisma.walk.findMany({
    where: { status: 'open', projects: { some: { projectId } } },
    select: walkColumns,
    orderBy: [{ startedAt: 'desc' }, { id: 'desc' }],
  })
  return withProgress(rows.map(walkOf))
}

/** Walks that are over, the newest first. */
export async function listClosedWalks(page: { offset: number; limit: number }): Promise<{ walks: WalkListed[]; total: number }> {
  const { prisma } = database()
  const where = { status: { not: 'open' } }
  const [rows, total] = await Promise.all([
    prisma.walk.findMany({
      ...{ where, select: walkColumns, orderBy: [{ startedAt: 'desc' }, { id: 'desc' }] },
      ...{ skip: page.offset, take: page.limit },
    }),
    prisma.walk.count({ where }),
  ])
  return { walks: await withProgress(rows.map(walkOf)), total }
}

export type WalkProject = { id: string; title: string; status: string; quantity: number; place: PlaceTag | null }

/** What a line is of, as the list names it. */
export type ShownThing =
  | {
      kind: 'thread'
      id: string
      thread: ThreadTag
      lot: string | null
      putUpWord: string
      partStrandTenths: number
      partCertainty: PartCertainty
    }
  | { kind: 'cloth'; id: string; name: string; label: string | null; colourName: string | null; lab: Lab | null }
  | { kind: 'chart'; id: string; title: string; chartKind: string; copies: number }
  | { kind: 'notion'; id: string; name: string; size: string | null }

export type ShownLine = {
  id: string
  /** What the rows of the list are made of: lines of one thing are one row. */
  thingId: string
  projectId: string | null
  thing: ShownThing
  /** Where one goes for it: where it lies, or on a put-back list where it belongs. */
  place: PlaceTag | null
  count: number
  takesPart: boolean
  status: WalkLineStatus
  tickedAt: Date | null
  tickedBy: string | null
  isCarried: boolean
  note: string | null
}

export type WalkDetail = {
  walk: WalkRecord
  progress: WalkProgress
  projects: WalkProject[]
  /** In walking order. */
  lines: ShownLine[]
  /** Ask for what is new since this. */
  revision: number
}

/** A walk with all its lines; null when there is none. */
export async function findWalk(walkId: string): Promise<WalkDetail | null> {
  const { prisma } = database()
  // Read first: what is written while the rest is read is then told again, never left out.
  const revision = await readRevision()
  const row = await prisma.walk.findUnique({ where: { id: walkId }, select: walkColumns })
  if (!row) return null
  const [lines, of] = await Promise.all([
    prisma.walkLine.findMany({ where: { walkId }, orderBy: { position: 'asc' } }),
    prisma.walkProject.findMany({ where: { walkId }, select: { projectId: true }, orderBy: { position: 'asc' } }),
  ])
  const walk = walkOf(row)
  const [projects, things] = await Promise.all([
    readProjects(of.map(({ projectId }) => projectId)),
    readThings(lines.map((line) => ({ ...line, batchId: batchIdOf(line) }))),
  ])
  const goals = await readPlaceTags(
    lines.map((line) => {
      const thing = things.get(thingIdOf(line))
      if (walk.kind === 'put-back') return line.toPlaceId ?? thing?.homePlaceId ?? null
      return thing?.currentPlaceId ?? thing?.homePlaceId ?? null
    }),
  )
  const shown = lines.flatMap((line): ShownLine[] => {
    const found = things.get(thingIdOf(line))
    if (!found) return []
    const { homePlaceId, currentPlaceId } = found
    const goal = walk.kind === 'put-back' ? (line.toPlaceId ?? homePlaceId) : (currentPlaceId ?? homePlaceId)
    return [
      {
        ...{ id: line.id, thingId: thingIdOf(line), projectId: line.projectId, thing: found.thing },
        place: goals.get(goal ?? '') ?? null,
        ...{ count: line.count, takesPart: line.takesPart, status: line.status as WalkLineStatus },
        ...{ tickedAt: line.tickedAt, tickedBy: line.tickedBy, isCarried: line.carriedAt !== null, note: line.note },
      },
    ]
  })
  const progress = walkProgress(
    lines.map((line) => ({ ...line, status: line.status as WalkLineStatus, isCarried: line.carriedAt !== null })),
  )
  return { walk, progress, projects, lines: shown, revision }
}

type LineOf = {
  batchId: string | null
  insteadBatchId?: string | null
  clothPieceId: string | null
  chartId: string | null
  notionId: string | null
}

const thingIdOf = (line: LineOf): string =>
  line.insteadBatchId ?? line.batchId ?? line.clothPieceId ?? line.chartId ?? line.notionId ?? ''

async function readProjects(projectIds: readonly string[]): Promise<WalkProject[]> {
  const rows = await readInParts(projectIds, (ids) =>
    database().prisma.project.findMany({
      where: { id: { in: ids } },
      select: { id: true, status: true, quantity: true, placeId: true, design: { select: { title: true } } },
    }),
  )
  const places = await readPlaceTags(rows.map(({ placeId }) => placeId))
  const byId = new Map(rows.map((row) => [row.id, row]))
  return projectIds.flatMap((projectId) => {
    const row = byId.get(projectId)
    if (!row) return []
    const { id, status, quantity, placeId, design } = row
    return [{ id, status, quantity, title: design.title, place: places.get(placeId ?? '') ?? null }]
  })
}

async function readPlaceTags(placeIds: readonly (string | null)[]): Promise<Map<string, PlaceTag>> {
  const rows = await readInParts(placeIds, (ids) =>
    database().prisma.place.findMany({ where: { id: { in: ids } }, ...placeTagColumns }),
  )
  return new Map(rows.map((place) => [place.id, place as Pick<Place, 'id' | 'label' | 'name' | 'kind'>]))
}

type ThingRead = { thing: ShownThing; homePlaceId: string | null; currentPlaceId: string | null }

async function readThings(lines: readonly LineOf[]): Promise<Map<string, ThingRead>> {
  const { prisma } = database()
  const lies = { id: true, homePlaceId: true, currentPlaceId: true } as const
  const [batches, pieces, charts, notions] = await Promise.all([
    readInParts(
      lines.map(({ batchId }) => batchId),
      (ids) =>
        prisma.batch.findMany({
          where: { id: { in: ids } },
          select: { ...lies, lot: true, putUpWord: true, partStrandTenths: true, partCertainty: true, threadId: true },
        }),
    ),
    readInParts(
      lines.map(({ clothPieceId }) => clothPieceId),
      (ids) =>
        prisma.clothPiece.findMany({
          where: { id: { in: ids } },
          select: { ...lies, name: true, label: true, colourName: true, labL: true, labA: true, labB: true },
        }),
    ),
    readInParts(
      lines.map(({ chartId }) => chartId),
      (ids) => prisma.chart.findMany({ where: { id: { in: ids } }, select: { ...lies, title: true, kind: true, copies: true } }),
    ),
    readInParts(
      lines.map(({ notionId }) => notionId),
      (ids) => prisma.notion.findMany({ where: { id: { in: ids } }, select: { ...lies, name: true, size: true } }),
    ),
  ])
  const threads = await readInParts(
    batches.map(({ threadId }) => threadId),
    (ids) => prisma.thread.findMany({ where: { id: { in: ids } }, select: threadTagColumns }),
  )
  const threadOf = new Map(threads.map((row) => [row.id, threadTagOf(row)]))
  const read = new Map<string, ThingRead>()
  for (const { id, homePlaceId, currentPlaceId, threadId, putUpWord, partCertainty, ...batch } of batches) {
    const thread = threadOf.get(threadId) as ThreadTag
    const thing: ShownThing = {
      ...{ kind: 'thread', id, thread, putUpWord: putUpWord ?? thread.putUpWord },
      ...{ ...batch, partCertainty: partCertainty as PartCertainty },
    }
    read.set(id, { thing, homePlaceId, currentPlaceId })
  }
  for (const { id, homePlaceId, currentPlaceId, name, label, colourName, ...colour } of pieces)
    read.set(id, { thing: { kind: 'cloth', id, name, label, colourName, lab: labOf(colour) }, homePlaceId, currentPlaceId })
  for (const { id, homePlaceId, currentPlaceId, title, kind, copies } of charts)
    read.set(id, { thing: { kind: 'chart', id, title, chartKind: kind, copies }, homePlaceId, currentPlaceId })
  for (const { id, homePlaceId, currentPlaceId, name, size } of notions)
    read.set(id, { thing: { kind: 'notion', id, name, size }, homePlaceId, currentPlaceId })
  return read
}

/** What somebody said of a line since. */
export type LineNews = {
  id: string
  status: WalkLineStatus
  tickedAt: Date | null
  tickedBy: string | null
  isCarried: boolean
}

export type WalkNews = {
  /** Ask for what is new since this next. */
  revision: number
  status: WalkStatus
  /** Another one than before: lines came, went or changed otherwise than by ticks, so read the walk again. */
  version: number
  lines: LineNews[]
}

/** What was ticked since a revision of the collection; null when there is no such walk. */
export async function readNews(walkId: string, since: number): Promise<WalkNews | null> {
  const { prisma } = database()
  const revision = await readRevision()
  const walk = await prisma.walk.findUnique({ where: { id: walkId }, select: { status: true, version: true } })
  if (!walk) return null
  const lines = await prisma.walkLine.findMany({
    where: { walkId, revision: { gt: since } },
    select: { id: true, status: true, tickedAt: true, tickedBy: true, carriedAt: true },
    orderBy: { position: 'asc' },
  })
  return {
    ...{ revision, version: walk.version, status: walk.status as WalkStatus },
    lines: lines.map(({ carriedAt, status, ...line }) => ({
      ...line,
      ...{ status: status as WalkLineStatus, isCarried: carriedAt !== null },
    })),
  }
}

/** Projects that could be pulled for: under way, with thread promised to them that is not in their bag, or a bag still to fill. */
export type PullChoice = WalkProject & {
  plannedOn: string | null
  dueOn: string | null
  walk: { id: string; title: string } | null
}

export async function listPullChoices(ownerIds: readonly string[]): Promise<PullChoice[]> {
  const { prisma } = database()
  const rows = await prisma.project.findMany({
    where: {
      ...{ ownerId: { in: [...ownerIds] }, goneAt: null, status: { in: ['planned', 'kitted', 'stitching', 'resting'] } },
      promises: { some: { batch: { goneAt: null } } },
    },
    select: {
      ...{ id: true, status: true, quantity: true, placeId: true, plannedOn: true, dueOn: true },
      design: { select: { title: true } },
    },
    orderBy: [{ plannedOn: 'asc' }, { dueOn: 'asc' }, { id: 'asc' }],
  })
  const [places, walked] = await Promise.all([
    readPlaceTags(rows.map(({ placeId }) => placeId)),
    prisma.walkProject.findMany({
      where: { walk: { status: 'open', kind: 'pull' } },
      select: { projectId: true, walk: { select: { id: true, title: true } } },
    }),
  ])
  const walkOfProject = new Map(walked.map(({ projectId, walk }) => [projectId, walk]))
  return rows.map(({ placeId, design, ...row }) => ({
    ...row,
    title: design.title,
    place: places.get(placeId ?? '') ?? null,
    walk: walkOfProject.get(row.id) ?? null,
  }))
}
