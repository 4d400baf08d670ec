import 'server-only'
import { sideBySide } from '#lib/place/side-by-side'
import { compareExact } from '#lib/stock/batch'
import { type Accuracy, accuracyOf, findSwapSuspects, hasMovedSince, isUndecided, type SwapSuspect } from '#lib/stock/stocktake'
import { database } from '../client'
import { type AskedThread, listAsked } from '../missing/list-asked'
import { placeTagColumns } from '../place/place-rows'
import { listThreadsCalled } from '../thread/find-thread'
import { type CountRecord, type FullLine, readCountPlaces, readFullLines } from './queries'

export type ComparedLine = FullLine & {
  /** Stock moved after the record was read for it: count again before correcting. */
  hasMoved: boolean
  isUndecided: boolean
  /** Who last did something to it, and when. */
  lastMoved: { at: Date; who: string | null } | null
}

type Tag = { id: string; label: string }

/** Something that lives in the counted places and is out: an open question, not an error of the count. */
export type OutOfCount = {
  batchId: string
  threadName: string
  wholePutUps: number
  home: Tag
  current: Tag
  outSince: Date | null
}

/** Where the record has a thread that was found. */
export type FoundElsewhere = { lineId: string; threadId: string; where: { label: string; wholePutUps: number }[] }

export type Comparison = {
  accuracy: Accuracy
  /** All lines, in walking order. */
  lines: ComparedLine[]
  suspects: SwapSuspect[]
  out: OutOfCount[]
  elsewhere: FoundElsewhere[]
  /** Being looked for: of what lives here, and of threads more of which was counted than the record has. */
  asked: AskedThread[]
}

/** Of so many batches at most is it said who moved them last: SQLite takes no more than 999 parameters. */
const storiesTold = 400

/** A count held against the record. */
export async function readComparison(count: CountRecord): Promise<Comparison> {
  const { prisma } = database()
  const places = await readCountPlaces(count.id)
  const lines = await readFullLines(count.id, places)
  const root = places.find(({ id }) => id === count.place.id)
  const ofCount = { batch: { countLines: { some: { countId: count.id } } } }
  const [lastOf, states, out, elsewhere] = await Promise.all([
    prisma.movement.groupBy({ by: ['batchId'], where: ofCount, _max: { at: true, revision: true } }),
    prisma.batch.findMany({
      where: { countLines: { some: { countId: count.id } } },
      select: { id: true, wholePutUps: true, homePlaceId: true, currentPlaceId: true, goneAt: true },
    }),
    root ? listOutOf(root.path) : [],
    listElsewhere(lines),
  ])
  const over = lines.filter(({ counted, expected }) => counted !== null && counted > expected)
  const asked = await listAsked({
    threadIds: [...over.flatMap(({ thread }) => thread?.id ?? []), ...elsewhere.map(({ threadId }) => threadId)],
    homePath: root?.path ?? null,
  })
  const lastById = new Map(lastOf.map(({ batchId, _max }) => [batchId, _max]))
  const stateById = new Map(states.map((state) => [state.id, state]))

  const differing = lines
    .filter(({ counted, expected, batchId }) => batchId !== null && counted !== null && counted !== expected)
    .slice(0, storiesTold)
  const told = await prisma.movement.findMany({
    where: {
      batchId: { in: differing.flatMap(({ batchId }) => batchId ?? []) },
      revision: { in: differing.flatMap(({ batchId }) => lastById.get(batchId)?.revision ?? []) },
    },
    select: { batchId: true, revision: true, at: true, who: true },
    orderBy: { id: 'asc' },
  })
  const toldOf = new Map(
    told.filter(({ batchId, revision }) => lastById.get(batchId)?.revision === revision).map((row) => [row.batchId, row]),
  )

  return {
    accuracy: accuracyOf(lines),
    lines: lines.map((line) => {
      const state = stateById.get(line.batchId ?? '')
      const last = toldOf.get(line.batchId)
      const since = line.outcome === 'recount' && line.countedAt ? line.countedAt : count.startedAt
      const now = state && {
        wholePutUps: state.wholePutUps,
        placeId: state.currentPlaceId ?? state.homePlaceId,
        isGone: state.goneAt !== null,
        lastMovedAt: lastById.get(state.id)?.at ?? null,
      }
      const isSettled = line.outcome === 'accepted' || count.status === 'signed' || count.status === 'dropped'
      return {
        ...line,
        hasMoved: !isSettled && now !== undefined && hasMovedSince({ ...line, placeId: line.place.id }, now, since),
        isUndecided: isUndecided(line),
        lastMoved: last ? { at: last.at, who: last.who } : null,
      }
    }),
    suspects: findSwapSuspects(
      lines.map((line) => ({ ...line, placeId: line.place.id })),
      sideBySide(places),
    ),
    out,
    elsewhere,
    asked,
  }
}

async function listOutOf(path: string): Promise<OutOfCount[]> {
  const { prisma } = database()
  const rows = await prisma.batch.findMany({
    where: {
      goneAt: null,
      homePlace: { path: { startsWith: path } },
      currentPlace: { NOT: { path: { startsWith: path } } },
      OR: [{ wholePutUps: { gt: 0 } }, { partCertainty: { not: 'none' } }],
    },
    select: {
      ...{ id: true, wholePutUps: true, outSince: true, homePlace: placeTagColumns, currentPlace: placeTagColumns },
      thread: { select: { code: true, name: true, line: { select: { maker: { select: { name: true } } } } } },
    },
  })
  return rows
    .flatMap(({ id, wholePutUps, outSince, homePlace, currentPlace, thread }) => {
      const threadName = [thread.line.maker.name, thread.code, thread.name].filter(Boolean).join(' ')
      return homePlace && currentPlace
        ? [{ batchId: id, threadName, wholePutUps, home: homePlace, current: currentPlace, outSince }]
        : []
    })
    .sort((a, b) => compareExact(a.threadName, b.threadName) || compareExact(a.batchId, b.batchId))
}

/** Things found are few: each is looked up as it was written. One that may be several threads is none. */
async function listElsewhere(lines: readonly FullLine[]): Promise<FoundElsewhere[]> {
  const found = await Promise.all(
    lines.flatMap(({ id, found: text }) => (text === null ? [] : [listThreadsCalled(text).then((called) => ({ id, called }))])),
  )
  const named = found.flatMap(({ id, called }) => (called.length === 1 && called[0] ? [{ id, threadId: called[0].id }] : []))
  const batches = await database().prisma.batch.findMany({
    where: { threadId: { in: named.map(({ threadId }) => threadId) }, goneAt: null, wholePutUps: { gt: 0 } },
    select: {
      ...{ threadId: true, wholePutUps: true, currentPlace: { select: { label: true } }, homePlace: { select: { label: true } } },
    },
    orderBy: { id: 'asc' },
  })
  return named.map(({ id, threadId }) => ({
    lineId: id,
    threadId,
    where: batches
      .filter((batch) => batch.threadId === threadId)
      .map(({ wholePutUps, currentPlace, homePlace }) => ({
        label: currentPlace?.label ?? homePlace?.label ?? 'no place',
        wholePutUps,
      })),
  }))
}
