import 'server-only'
import { type PlaceDue, placesDue } from '#lib/stock/count-due'
import { database } from '../client'
import { type PlaceTag, placeTagColumns } from '../place/place-rows'
import { readClasses } from '../reorder/use-figures'

/** A place with what is due; a compartment's is told of what it is in. */
export type NotCounted = Omit<PlaceDue, 'placeId'> & { place: PlaceTag }

/** Where these owners' thread lies that was not counted since a day. Counts given up say nothing. */
export async function listNotCounted(asked: { ownerIds: readonly string[]; since: Date; now: Date }): Promise<NotCounted[]> {
  const { prisma } = database()
  const ofOwners = { ownerId: { in: [...asked.ownerIds] }, goneAt: null }
  const [batches, counted, places, classes] = await Promise.all([
    prisma.batch.findMany({
      where: { ...ofOwners, OR: [{ wholePutUps: { gt: 0 } }, { partCertainty: { not: 'none' } }] },
      select: { id: true, threadId: true, homePlaceId: true, currentPlaceId: true },
    }),
    prisma.stockCountLine.groupBy({
      by: ['batchId'],
      where: { batch: ofOwners, counted: { not: null }, count: { status: { not: 'dropped' } } },
      _max: { countedAt: true },
    }),
    prisma.place.findMany({
      where: { goneAt: null },
      select: { ...placeTagColumns.select, parentId: true },
    }),
    readClasses(asked),
  ])
  const countedAtOf = new Map(counted.map(({ batchId, _max }) => [batchId, _max.countedAt]))
  const placeById = new Map(places.map((place) => [place.id, place]))
  const stopOf = (placeId: string): string => {
    const place = placeById.get(placeId)
    return place?.kind === 'compartment' && place.parentId !== null ? place.parentId : placeId
  }
  const due = placesDue(
    batches.flatMap(({ id, threadId, homePlaceId, currentPlaceId }) => {
      const placeId = currentPlaceId ?? homePlaceId
      const abc = classes.get(threadId)?.class ?? 'C'
      return placeId === null ? [] : [{ placeId: stopOf(placeId), countedAt: countedAtOf.get(id) ?? null, abc }]
    }),
    asked.since,
  )
  return due.flatMap(({ placeId, ...rest }) => {
    const place = placeById.get(placeId)
    if (!place) return []
    const { parentId: _parentId, ...tag } = place
    return [{ ...rest, place: tag as PlaceTag }]
  })
}
