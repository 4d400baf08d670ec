import type { PlaceRecord } from '#lib/db/place/place-rows'
import { placePath } from '#lib/place/place-tree'

/** Places as the API gives them, in the order they come. */
export function describePlaces(places: readonly PlaceRecord[]) {
  const byId = new Map(places.map((place) => [place.id, place]))
  return places.map((place) => {
    const path = placePath(place, byId)
    return {
      placeId: place.id,
      label: place.label,
      name: place.name,
      kind: place.kind,
      parentId: place.parentId,
      depth: path.length - 1,
      pathText: path.map(({ label }) => label).join(' › '),
      capacity: place.capacity,
      note: place.note,
      version: place.version,
    }
  })
}
