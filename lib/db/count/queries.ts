import 'server-only'
import type { Lab } from '#lib/colour/lab'
import type { Place } from '#lib/place/place'
import { walkOrder } from '#lib/place/walk-order'
import { compareExact } from '#lib/stock/batch'
import type { CountStatus, LineOutcome } from '#lib/stock/stocktake'
import { compareCodes } from '#lib/thread/code-order'
import { database } from '../client'
import { labOf } from '../lab-of'
import { type PlaceTag, placeColumns, placeTagColumns } from '../place/place-rows'

/** A count, without its lines. */
export type CountRecord = {
  id: string
  title: string
  place: PlaceTag
  status: CountStatus
  startedAt: Date
  startedBy: string | null
  closedAt: Date | null
  signedBy: string | null
}

export type CountListed = CountRecord & { lines: number; linesCounted: number; linesRight: number }

const countColumns = {
  ...{ id: true, title: true, status: true, startedAt: true, startedBy: true, closedAt: true, signedBy: true },
  place: placeTagColumns,
} as const

type CountRow = Omit<CountRecord, 'place' | 'status'> & { status: string; place: Omit<PlaceTag, 'kind'> & { kind: string } }
const countOf = (row: CountRow): CountRecord => ({
  ...row,
  status: row.status as CountStatus,
  place: row.place as PlaceTag,
})

/** Counts, the newest first. */
export async function listCounts(page: { offset: number; limit: number }): Promise<{ counts: CountListed[]; total: number }> {
  const { prisma } = database()
  const [rows, total] = await Promise.all([
    prisma.stockCount.findMany({
      select: countColumns,
      orderBy: [{ startedAt: 'desc' }, { id: 'desc' }],
      skip: page.offset,
      take: page.limit,
    }),
    prisma.stockCount.count(),
  ])
  const of = { countId: { in: rows.map(({ id }) => id) } }
  const tally = async (where: object) => {
    const groups = await prisma.stockCountLine.groupBy({ by: ['countId'], where: { ...of, ...where }, _count: { _all: true } })
    return new Map(groups.map(({ countId, _count }) => [countId, _count._all]))
  }
  const [lines, counted, right] = await Promise.all([
    tally({}),
    tally({ counted: { not: null } }),
    tally({ counted: { equals: prisma.stockCountLine.fields.expected } }),
  ])
  const counts = rows.map((row) => ({
    ...countOf(row),
    lines: lines.get(row.id) ?? 0,
    linesCounted: counted.get(row.id) ?? 0,
    linesRight: right.get(row.id) ?? 0,
  }))
  return { counts, total }
}

export async function findCount(countId: string): Promise<CountRecord | null> {
  const row = await database().prisma.stockCount.findUnique({ where: { id: countId }, select: countColumns })
  return row && countOf(row)
}

/** A thread as a count names it. */
export type CountedThread = {
  id: string
  makerName: string
  lineName: string
  code: string
  name: string | null
  lab: Lab | null
}

/** A line to count. What is expected is not among it: the sheet is blind. */
export type SheetLine = {
  id: string
  place: PlaceTag
  /** Null for what was found and is not on the record there. */
  thread: CountedThread | null
  found: string | null
  lot: string | null
  putUpWord: string
  ownerName: string | null
  counted: number | null
  countedAt: Date | null
  countedBy: string | null
  outcome: LineOutcome | null
  note: string | null
}

/** A line with what the record said. */
export type FullLine = SheetLine & { batchId: string | null; expected: number }

/** A count's places, itself and all inside it, in walking order. */
export async function readCountPlaces(countId: string): Promise<Place[]> {
  const { prisma } = database()
  const count = await prisma.stockCount.findUnique({ where: { id: countId }, select: { place: { select: { path: true } } } })
  if (!count) return []
  const rows = await prisma.place.findMany({
    where: { goneAt: null, path: { startsWith: count.place.path } },
    select: placeColumns,
  })
  return walkOrder(rows as Place[])
}

/** All lines in the order one walks past them; in one place by maker, line and code, and what was found there after them. */
export async function readFullLines(countId: string, places: readonly Place[]): Promise<FullLine[]> {
  const rows = await database().prisma.stockCountLine.findMany({
    where: { countId },
    select: {
      ...{ id: true, found: true, expected: true, counted: true, countedAt: true, countedBy: true, outcome: true, note: true },
      place: placeTagColumns,
      batch: {
        select: {
          ...{ id: true, lot: true, putUpWord: true },
          owner: { select: { name: true } },
          thread: {
            select: {
              ...{ id: true, code: true, name: true, labL: true, labA: true, labB: true },
              line: { select: { name: true, putUpWord: true, maker: { select: { name: true } } } },
            },
          },
        },
      },
    },
  })
  const turns = new Map(places.map(({ id }, turn) => [id, turn]))
  const turnOf = ({ place }: FullLine) => turns.get(place.id) ?? Number.MAX_SAFE_INTEGER
  return rows
    .map(({ batch, place, outcome, ...line }): FullLine => {
      const thread = batch?.thread
      return {
        ...line,
        place: place as PlaceTag,
        outcome: outcome as LineOutcome | null,
        batchId: batch?.id ?? null,
        thread: thread
          ? {
              ...{ id: thread.id, code: thread.code, name: thread.name, lab: labOf(thread) },
              ...{ makerName: thread.line.maker.name, lineName: thread.line.name },
            }
          : null,
        lot: batch?.lot ?? null,
        putUpWord: batch?.putUpWord ?? thread?.line.putUpWord ?? 'put-up',
        ownerName: batch?.owner.name ?? null,
      }
    })
    .sort(
      (a, b) =>
        turnOf(a) - turnOf(b) ||
        compareExact(a.place.id, b.place.id) ||
        compareExact(a.thread?.makerName ?? null, b.thread?.makerName ?? null) ||
        compareExact(a.thread?.lineName ?? null, b.thread?.lineName ?? null) ||
        compareCodes(a.thread?.code ?? '', b.thread?.code ?? '') ||
        compareExact(a.lot ?? '', b.lot ?? '') ||
        compareExact(a.id, b.id),
    )
}

/**
 * What is to be counted, in walking order, without what is expected: while a count is open all of it, afterwards what was sent to be
 * counted again.
 */
export async function readSheet(count: CountRecord): Promise<{ lines: SheetLine[]; places: Place[] }> {
  const places = await readCountPlaces(count.id)
  const lines = await readFullLines(count.id, places)
  const asked = count.status === 'open' ? lines : count.status === 'counted' ? lines.filter(isRecounting) : []
  return { places, lines: asked.map(({ expected: _expected, batchId: _batchId, ...line }) => line) }
}

const isRecounting = ({ outcome }: SheetLine): boolean => outcome === 'recount'
