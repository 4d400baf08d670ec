import type { Place } from '#lib/place/place'
import { placePath } from '#lib/place/place-tree'

/** Where a place is, from the room down: "Kitting room › Cabinet T › T2.1". */
export const pathWords = (place: Place, places: ReadonlyMap<string, Place>): string =>
  placePath(place, places)
    .map(({ label, name }) => name ?? label)
    .join(' › ')
