import type { PlaceOption } from '#lib/db/place/queries'
import { type PlaceKind, peopleKinds } from '#lib/place/place'

const bagKinds = new Set<PlaceKind>(['bag', 'box', 'ring', 'bin', 'folder'])
const clothKinds = new Set<PlaceKind>(['box', 'shelf', 'bin', 'rack', 'drawer', 'folder'])
const restKinds = new Set<PlaceKind>([...peopleKinds, 'room', 'shelf', 'box'])

/** A list one picks from while typing stays quick up to about this long. */
const mostOffered = 300

const labelsOf = (places: readonly PlaceOption[], kinds: ReadonlySet<PlaceKind>): string[] =>
  places
    .filter(({ kind }) => kinds.has(kind))
    .slice(0, mostOffered)
    .map(({ label }) => label)

/** Where a kit can be. */
export const bagLabels = (places: readonly PlaceOption[]): string[] => labelsOf(places, bagKinds)
/** Where an offcut can go. */
export const clothPlaceLabels = (places: readonly PlaceOption[]): string[] => labelsOf(places, clothKinds)
/** Where a finished piece can be. */
export const finishedPlaceLabels = (places: readonly PlaceOption[]): string[] => labelsOf(places, restKinds)
