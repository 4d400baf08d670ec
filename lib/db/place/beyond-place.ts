import 'server-only'
import type { PlaceKind } from '#lib/place/place'
import { compareExact } from '#lib/stock/batch'
import { compareCodes } from '#lib/thread/code-order'
import { database } from '../client'
import { passageKinds } from '../movement/thread-story'
import { readThread, type ThreadHere, threadColumns } from './contents'
import type { PlaceTag } from './place-rows'

/** A place itself and its compartments, as a filter. */
const inThese = (placeId: string) => ({ OR: [{ id: placeId }, { parentId: placeId, kind: 'compartment' }] })

const isThere = { OR: [{ wholePutUps: { gt: 0 } }, { partCertainty: { not: 'none' } }] }

/** Shown at once of what overflowed or moved away: past these it is a list to look for elsewhere. */
export const beyondShown = 200

const byNumber = (a: ThreadHere, b: ThreadHere): number =>
  compareExact(a.makerName, b.makerName) ||
  compareExact(a.lineName, b.lineName) ||
  compareCodes(a.code, b.code) ||
  compareExact(a.lot ?? '', b.lot ?? '') ||
  compareExact(a.id, b.id)

/** More of the threads that live in a place or its compartments, living elsewhere: where the overflow is. In number order. */
export async function listOverflow(placeId: string, ownerIds: readonly string[]): Promise<ThreadHere[]> {
  const owned = { goneAt: null, ownerId: { in: [...ownerIds] } }
  const rows = await database().prisma.batch.findMany({
    where: {
      ...owned,
      ...isThere,
      homePlaceId: { not: null },
      homePlace: { NOT: inThese(placeId) },
      thread: { batches: { some: { ...owned, homePlace: inThese(placeId) } } },
    },
    select: threadColumns,
    orderBy: { id: 'asc' },
    take: beyondShown,
  })
  return rows.map(readThread).sort(byNumber)
}

export type LivedHere = ThreadHere & {
  /** When it last left, if the journal says. */
  until: Date | null
}

/**
 * Thread that lived in a place or its compartments before and lives elsewhere now: what an old label on it still says. The last to leave
 * comes first. Read from the journal (see `formerHomes`), so it takes a while where that is long.
 */
export async function listLivedHere(place: { id: string; kind: PlaceKind }, ownerIds: readonly string[]): Promise<LivedHere[]> {
  const { prisma } = database()
  const here = inThese(place.id)
  const putBack = { kind: 'return', toPlace: here }
  const evidence = passageKinds.includes(place.kind)
    ? [putBack]
    : [putBack, { kind: { in: ['receive', 'merge'] }, toPlace: here }, { kind: 'move', fromPlace: here }]
  const rows = await prisma.batch.findMany({
    where: {
      goneAt: null,
      ownerId: { in: [...ownerIds] },
      AND: [{ OR: [{ homePlaceId: null }, { homePlace: { NOT: here } }] }, { movements: { some: { OR: evidence } } }],
    },
    select: threadColumns,
    orderBy: { id: 'asc' },
    take: beyondShown,
  })
  const left = await prisma.movement.groupBy({
    by: ['batchId'],
    where: { batchId: { in: rows.map(({ id }) => id) }, fromPlace: here },
    _max: { at: true },
  })
  const untilOf = new Map(left.map(({ batchId, _max: max }) => [batchId, max.at]))
  return rows
    .map((row) => ({ ...readThread(row), until: untilOf.get(row.id) ?? null }))
    .sort((a, b) => (b.until?.getTime() ?? 0) - (a.until?.getTime() ?? 0) || byNumber(a, b))
}

export type CameFrom = {
  /** The project it was taken for, or put by for, last. */
  takenFor: { id: string; title: string } | null
  promisedTo: { id: string; title: string }[]
  /** Where it was taken from. */
  from: PlaceTag | null
}

/** For which project each batch lying away from home in a place was taken, and to which it is promised; by batch. */
export async function readCameFrom(placeId: string, ownerIds: readonly string[]): Promise<Map<string, CameFrom>> {
  const { prisma } = database()
  const batch = {
    goneAt: null,
    ownerId: { in: [...ownerIds] },
    currentPlace: inThese(placeId),
    OR: [{ homePlaceId: null }, { homePlace: { NOT: inThese(placeId) } }],
  }
  const project = { select: { id: true, design: { select: { title: true } } } } as const
  const [promises, taken] = await Promise.all([
    prisma.stockPromise.findMany({ where: { batch }, select: { batchId: true, project }, orderBy: { id: 'asc' } }),
    prisma.movement.findMany({
      where: { batch, kind: { in: ['take', 'move', 'split'] }, toPlace: inThese(placeId) },
      select: {
        batchId: true,
        project,
        fromPlace: { select: { id: true, label: true, name: true, kind: true } },
      },
      orderBy: [{ revision: 'asc' }, { id: 'asc' }],
    }),
  ])
  const named = ({ id, design }: { id: string; design: { title: string } }) => ({ id, title: design.title })
  const cameFrom = new Map<string, CameFrom>()
  for (const { batchId, project: takenFor, fromPlace } of taken)
    cameFrom.set(batchId ?? '', {
      takenFor: takenFor && named(takenFor),
      promisedTo: [],
      from: fromPlace as PlaceTag | null,
    })
  for (const { batchId, project: promisedTo } of promises) {
    const known = cameFrom.get(batchId) ?? { takenFor: null, promisedTo: [], from: null }
    cameFrom.set(batchId, { ...known, promisedTo: [...known.promisedTo, named(promisedTo)] })
  }
  return cameFrom
}
