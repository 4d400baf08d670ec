import 'server-only'
import type { PlaceKind } from '#lib/place/place'
import { database } from '../client'
import { type PlaceTag, placeTagColumns } from './place-rows'

/** So many lines of the journal are looked through: what was put somewhere before them is not lately. */
const linesLooked = 200

/** Where things were put last, the last first. */
export async function listRecentPlaces(limit: number): Promise<PlaceTag[]> {
  const { prisma } = database()
  const lines = await prisma.movement.findMany({
    where: { toPlaceId: { not: null } },
    orderBy: [{ at: 'desc' }, { id: 'desc' }],
    take: linesLooked,
    select: { toPlaceId: true },
  })
  const ids = [...new Set(lines.flatMap(({ toPlaceId }) => toPlaceId ?? []))]
  const places = await prisma.place.findMany({
    where: { id: { in: ids }, goneAt: null, kind: { not: 'not found' } },
    ...placeTagColumns,
  })
  const byId = new Map(places.map((place) => [place.id, { ...place, kind: place.kind as PlaceKind }]))
  return ids.flatMap((id) => byId.get(id) ?? []).slice(0, limit)
}
