import 'server-only'
import { type PlaceKind, peopleKinds } from '#lib/place/place'
import { formerHomes } from '#lib/stock/former-homes'
import type { MovementKind } from '#lib/stock/stock-change'
import { database } from '../client'

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

/** How a batch left home last: for which project, and what was said. */
export type WentOut = { project: { id: string; title: string } | null; who: string | null; reason: string | null }

export type ThreadStory = {
  /** One page, the latest first; the lines of one write stand on one page. */
  lines: MovementLine[]
  page: number
  pages: number
  /** Homes of batches that live elsewhere now, the one left last first. */
  formerHomes: { place: { id: string; label: string }; until: Date; batchIds: string[] }[]
  /** By batch that is not at home. */
  wentOut: Map<string, WentOut>
}

/** Writes told on one page. */
const writesPerPage = 40

/** Places that things pass through: what is moved out of one did not live there. */
export const passageKinds: readonly PlaceKind[] = ['bag', 'not found', ...peopleKinds]

/**
 * The journal of a thread: of what these owners hold, and of what they passed on up to the day they did; what became of it later is the
 * new owner's affair.
 *
 * @param asked.page  from 1; past the last, the last
 */
export async function readThreadStory(
  threadId: string,
  asked: { ownerIds: readonly string[]; page: number },
): Promise<ThreadStory> {
  const { prisma } = database()
  const [batches, movements, places] = await Promise.all([
    prisma.batch.findMany({
      where: { threadId },
      select: {
        id: true,
        ownerId: true,
        lot: true,
        putUpStrandTenths: true,
        homePlaceId: true,
        currentPlaceId: true,
        goneAt: true,
      },
    }),
    // Names are read of one page only: relations of all lines would be more parameters than SQLite takes.
    prisma.movement.findMany({
      where: { batch: { threadId } },
      select: {
        id: true,
        revision: true,
        at: true,
        kind: true,
        batchId: true,
        wholeDelta: true,
        partDeltaStrandTenths: true,
        fromPlaceId: true,
        toPlaceId: true,
        fromOwnerId: true,
        toOwnerId: true,
        projectId: true,
        who: true,
        reason: true,
      },
      orderBy: [{ revision: 'desc' }, { id: 'asc' }],
    }),
    prisma.place.findMany({ select: { id: true, label: true, kind: true } }),
  ])
  const batchOf = new Map(batches.map((batch) => [batch.id, batch]))
  const placeOf = new Map(places.map((place) => [place.id, place]))

  const passedOnAt = new Map<string | null, number>()
  for (const { batchId, fromOwnerId, revision } of movements) {
    if (fromOwnerId !== null && asked.ownerIds.includes(fromOwnerId) && !passedOnAt.has(batchId))
      passedOnAt.set(batchId, revision)
  }
  const told = movements.filter(
    ({ batchId, revision }) =>
      asked.ownerIds.includes(batchOf.get(batchId ?? '')?.ownerId ?? '') || revision <= (passedOnAt.get(batchId) ?? -1),
  )
  const revisions = [...new Set(told.map(({ revision }) => revision))]
  const pages = Math.max(1, Math.ceil(revisions.length / writesPerPage))
  const page = Math.min(Math.max(1, asked.page), pages)
  const onPage = new Set(revisions.slice((page - 1) * writesPerPage, page * writesPerPage))
  const shown = told.filter(({ revision }) => onPage.has(revision))

  const held = batches.filter(({ ownerId, goneAt }) => goneAt === null && asked.ownerIds.includes(ownerId))
  const away = new Set(
    held
      .filter(({ homePlaceId, currentPlaceId }) => currentPlaceId !== null && currentPlaceId !== homePlaceId)
      .map(({ id }) => id),
  )
  const lastOut = new Map<string, (typeof movements)[number]>()
  for (const movement of movements) {
    const id = movement.batchId ?? ''
    const leaves = movement.kind === 'take' || movement.kind === 'move' || movement.kind === 'split'
    if (away.has(id) && leaves && movement.toPlaceId === batchOf.get(id)?.currentPlaceId && !lastOut.has(id))
      lastOut.set(id, movement)
  }
  const projectIds = [...shown, ...lastOut.values()].flatMap(({ projectId }) => projectId ?? [])
  const ownerIds = shown.flatMap(({ fromOwnerId, toOwnerId }) => [fromOwnerId ?? [], toOwnerId ?? []].flat())
  const [projects, owners] = await Promise.all([
    prisma.project.findMany({
      where: { id: { in: [...new Set(projectIds)] } },
      select: { id: true, design: { select: { title: true } } },
    }),
    prisma.owner.findMany({ where: { id: { in: [...new Set(ownerIds)] } }, select: { id: true, name: true } }),
  ])
  const titleOf = new Map(projects.map(({ id, design }) => [id, design.title]))
  const nameOf = new Map(owners.map(({ id, name }) => [id, name]))

  const homes = formerHomes({
    lines: movements.map(({ batchId, kind, ...line }) => ({ ...line, kind: kind as MovementKind, thingId: batchId ?? '' })),
    homeOf: new Map(held.map(({ id, homePlaceId }) => [id, homePlaceId])),
    isPassage: (placeId) => passageKinds.includes(placeOf.get(placeId)?.kind as PlaceKind),
  })
  return {
    lines: shown.map(({ kind, batchId, fromPlaceId, toPlaceId, fromOwnerId, toOwnerId, projectId, ...line }) => ({
      ...line,
      kind: kind as MovementKind,
      batchId: batchId as string,
      lot: batchOf.get(batchId ?? '')?.lot ?? null,
      putUpStrandTenths: batchOf.get(batchId ?? '')?.putUpStrandTenths ?? 0,
      from: placeOf.get(fromPlaceId ?? '')?.label ?? null,
      to: placeOf.get(toPlaceId ?? '')?.label ?? null,
      fromOwner: nameOf.get(fromOwnerId ?? '') ?? null,
      toOwner: nameOf.get(toOwnerId ?? '') ?? null,
      projectTitle: titleOf.get(projectId ?? '') ?? null,
    })),
    page,
    pages,
    formerHomes: homes.flatMap(({ placeId, until, thingIds }) => {
      const place = placeOf.get(placeId)
      return place ? [{ place: { id: place.id, label: place.label }, until, batchIds: thingIds }] : []
    }),
    wentOut: new Map(
      [...lastOut].map(([batchId, { projectId, who, reason }]) => [
        batchId,
        {
          project: projectId === null ? null : { id: projectId, title: titleOf.get(projectId) ?? '' },
          who,
          reason,
        },
      ]),
    ),
  }
}
