import 'server-only'
import type { Lab } from '#lib/colour/lab'
import type { PlaceKind } from '#lib/place/place'
import { textKey } from '#lib/quantity/text-key'
import { type Batch, compareExact, type PartCertainty, type StockPromise } from '#lib/stock/batch'
import type { MovementKind } from '#lib/stock/movements'
import { compareCodes } from '#lib/thread/code-order'
import type { ThreadLine } from '#lib/thread/thread'
import { database } from '../client'
import { labOf } from '../lab-of'
import { batchColumns, promiseColumns } from '../stock/apply-stock-change'
import { lineColumns, lineOf } from './list-lines'

type PlaceRef = {
  id: string
  label: string
  kind: PlaceKind /** From the top down. */
  above: { id: string; label: string }[]
}

export type HeldBatch = {
  batch: Batch
  version: number
  outSince: Date | null
  ownerName: string
  home: PlaceRef | null
  current: PlaceRef | null
  promises: (StockPromise & { title: string })[]
}

/** A line of the journal with its names. */
export type MovementLine = {
  id: string
  revision: number
  at: Date
  kind: MovementKind
  batchId: string
  lot: string | null
  /** Of the batch it is about. */
  putUpStrandTenths: number
  wholeDelta: number
  partDeltaStrandTenths: number
  from: string | null
  to: string | null
  fromOwner: string | null
  toOwner: string | null
  projectTitle: string | null
  who: string | null
  reason: string | null
}

export type ThreadNamed = {
  id: string
  line: ThreadLine
  code: string
  name: string | null
  lab: Lab | null
}

export type StandInRow = { standInId: string; source: string | null; thread: ThreadNamed }

export type ThreadPage = ThreadNamed & {
  note: string | null
  minimumPutUps: number | null
  version: number
  /** Of the owners asked for, in the order they came in. */
  batches: HeldBatch[]
  /** Others who hold some. */
  otherOwners: string[]
  /** By title; at most `designsShown`. */
  designs: { id: string; title: string; chartTitle: string; lists: { id: string; name: string }[] }[]
  designCount: number
  standIns: StandInRow[]
  standsInFor: StandInRow[]
  /** Latest first; at most `movementsShown`. */
  movements: MovementLine[]
}

const designsShown = 60
export const movementsShown = 60

const threadColumns = {
  id: true,
  code: true,
  name: true,
  labL: true,
  labA: true,
  labB: true,
  line: { select: lineColumns },
} as const

type NamedRow = Omit<ThreadNamed, 'line' | 'lab'> & {
  labL: number | null
  labA: number | null
  labB: number | null
  line: Parameters<typeof lineOf>[0]
}

const namedOf = ({ labL, labA, labB, line, ...thread }: NamedRow): ThreadNamed => ({
  ...thread,
  lab: labOf({ labL, labA, labB }),
  line: lineOf(line),
})

const byName = (a: { thread: ThreadNamed }, b: { thread: ThreadNamed }) =>
  compareExact(a.thread.line.makerName, b.thread.line.makerName) ||
  compareExact(a.thread.line.name, b.thread.line.name) ||
  compareCodes(a.thread.code, b.thread.code)

/** One thread by its id, without its stock. */
export async function findThreadNamed(threadId: string): Promise<ThreadNamed | null> {
  const row = await database().prisma.thread.findFirst({ where: { id: threadId, goneAt: null }, select: threadColumns })
  return row && namedOf(row)
}

/** Everything on record of one thread, with the stock of these owners. */
export async function findThread(threadId: string, asked: { ownerIds: readonly string[] }): Promise<ThreadPage | null> {
  const { prisma } = database()
  const ownerIds = [...asked.ownerIds]
  const row = await prisma.thread.findFirst({
    where: { id: threadId, goneAt: null },
    select: { ...threadColumns, note: true, minimumPutUps: true, version: true },
  })
  if (!row) return null
  const usesThread = { keyLines: { some: { threads: { some: { threadId } } } } }
  const whereDesign = { chart: { goneAt: null }, threadLists: { some: usesThread } }
  const named = { select: { name: true } } as const
  const label = { select: { label: true } } as const
  const [batchRows, others, designs, designCount, standIns, standsInFor, movements] = await Promise.all([
    prisma.batch.findMany({
      where: { threadId, goneAt: null, ownerId: { in: ownerIds } },
      select: {
        ...batchColumns,
        version: true,
        outSince: true,
        owner: named,
        promises: {
          select: { ...promiseColumns, project: { select: { design: { select: { title: true } } } } },
          orderBy: { id: 'asc' },
        },
      },
      orderBy: { id: 'asc' },
    }),
    prisma.owner.findMany({
      where: {
        id: { notIn: ownerIds },
        batches: { some: { threadId, goneAt: null, OR: [{ wholePutUps: { gt: 0 } }, { partCertainty: { not: 'none' } }] } },
      },
      select: { name: true },
      orderBy: { id: 'asc' },
    }),
    prisma.design.findMany({
      where: whereDesign,
      select: {
        id: true,
        title: true,
        chart: { select: { title: true } },
        threadLists: { where: usesThread, select: { id: true, name: true }, orderBy: [{ position: 'asc' }, { id: 'asc' }] },
      },
      orderBy: [{ titleKey: 'asc' }, { id: 'asc' }],
      take: designsShown,
    }),
    prisma.design.count({ where: whereDesign }),
    prisma.standIn.findMany({
      where: { threadId, standIn: { goneAt: null } },
      select: { id: true, source: true, standIn: { select: threadColumns } },
    }),
    prisma.standIn.findMany({
      where: { standInThreadId: threadId, thread: { goneAt: null } },
      select: { id: true, source: true, thread: { select: threadColumns } },
    }),
    prisma.movement.findMany({
      where: {
        batch: {
          threadId,
          OR: [{ ownerId: { in: ownerIds } }, { movements: { some: { fromOwnerId: { in: ownerIds } } } }],
        },
      },
      select: {
        id: true,
        revision: true,
        at: true,
        kind: true,
        batchId: true,
        wholeDelta: true,
        partDeltaStrandTenths: true,
        who: true,
        reason: true,
        batch: { select: { lot: true, putUpStrandTenths: true, ownerId: true } },
        fromOwnerId: true,
        fromPlace: label,
        toPlace: label,
        fromOwner: named,
        toOwner: named,
        project: { select: { design: { select: { title: true } } } },
      },
      orderBy: [{ revision: 'desc' }, { id: 'asc' }],
      take: movementsShown,
    }),
  ])
  const places = await readPlaces(batchRows.flatMap((batch) => [batch.homePlaceId, batch.currentPlaceId]))
  const { note, minimumPutUps, version, ...thread } = row
  return {
    ...namedOf(thread),
    note,
    minimumPutUps,
    version,
    batches: batchRows.map(({ version: batchVersion, outSince, owner, promises, ...batch }) => ({
      batch: { ...batch, partCertainty: batch.partCertainty as PartCertainty },
      version: batchVersion,
      outSince,
      ownerName: owner.name,
      home: places.get(batch.homePlaceId ?? '') ?? null,
      current: places.get(batch.currentPlaceId ?? '') ?? null,
      promises: promises.map(({ project, ...promise }) => ({ ...promise, title: project.design.title })),
    })),
    otherOwners: others.map((owner) => owner.name),
    designs: designs.map(({ chart, threadLists, ...design }) => ({ ...design, chartTitle: chart.title, lists: threadLists })),
    designCount,
    standIns: standIns.map(({ id, source, standIn }) => ({ standInId: id, source, thread: namedOf(standIn) })).sort(byName),
    standsInFor: standsInFor.map(({ id, source, thread }) => ({ standInId: id, source, thread: namedOf(thread) })).sort(byName),
    movements: ofOwners(movements, ownerIds).map(
      ({ kind, batchId, batch, fromOwnerId: _fromOwnerId, fromPlace, toPlace, fromOwner, toOwner, project, ...movement }) => ({
        ...movement,
        kind: kind as MovementKind,
        batchId: batchId as string,
        lot: batch?.lot ?? null,
        putUpStrandTenths: batch?.putUpStrandTenths ?? 0,
        from: fromPlace?.label ?? null,
        to: toPlace?.label ?? null,
        fromOwner: fromOwner?.name ?? null,
        toOwner: toOwner?.name ?? null,
        projectTitle: project?.design.title ?? null,
      }),
    ),
  }
}

type OwnedMovement = { revision: number; batchId: string | null; batch: { ownerId: string } | null; fromOwnerId: string | null }

/**
 * The history of what these owners hold, and of what they passed on up to the day they did: what became of it later is the new
 * owner's affair.
 *
 * @param movements  Latest first, so that a transfer that is not among them is older than all that are.
 */
function ofOwners<T extends OwnedMovement>(movements: readonly T[], ownerIds: readonly string[]): T[] {
  const passedOnAt = new Map<string | null, number>()
  for (const { batchId, fromOwnerId, revision } of movements) {
    if (fromOwnerId !== null && ownerIds.includes(fromOwnerId) && !passedOnAt.has(batchId)) passedOnAt.set(batchId, revision)
  }
  return movements.filter(
    ({ batch, batchId, revision }) =>
      (batch !== null && ownerIds.includes(batch.ownerId)) || revision <= (passedOnAt.get(batchId) ?? -1),
  )
}

/** Places by id, each with those it is in. */
async function readPlaces(ids: (string | null)[]): Promise<Map<string, PlaceRef>> {
  const { prisma } = database()
  const asked = await prisma.place.findMany({
    where: { id: { in: [...new Set(ids.filter((id) => id !== null))] } },
    select: { id: true, label: true, kind: true, path: true },
  })
  const pathIds = (path: string) => path.split('/').filter(Boolean).slice(0, -1)
  const above = await prisma.place.findMany({
    where: { id: { in: [...new Set(asked.flatMap((place) => pathIds(place.path)))] } },
    select: { id: true, label: true },
  })
  const byId = new Map(above.map((place) => [place.id, place]))
  return new Map(
    asked.map(({ path, kind, ...place }) => [
      place.id,
      { ...place, kind: kind as PlaceKind, above: pathIds(path).flatMap((id) => byId.get(id) ?? []) },
    ]),
  )
}

/**
 * The threads a person may mean by a line of text: `0017`, or with maker, line or both before it, `Larkholm stranded 0017`. The code
 * is exact; maker and line are read however they are spelt.
 */
export async function listThreadsCalled(text: string): Promise<ThreadNamed[]> {
  const words = text.trim().split(/\s+/)
  const beforeByCode = new Map(words.map((_, index) => [words.slice(index).join(' '), textKey(words.slice(0, index).join(' '))]))
  const rows = await database().prisma.thread.findMany({
    where: { code: { in: [...beforeByCode.keys()] }, goneAt: null },
    select: threadColumns,
    orderBy: { id: 'asc' },
  })
  return rows.map(namedOf).filter(({ code, line }) => {
    const before = beforeByCode.get(code)
    return before === '' || [line.makerName, line.name, `${line.makerName} ${line.name}`].some((name) => textKey(name) === before)
  })
}
