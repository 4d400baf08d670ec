import 'server-only'
import type { Place } from '#lib/place/place'

/** Columns of a place every reader wants. */
export const placeColumns = {
  id: true,
  label: true,
  name: true,
  kind: true,
  parentId: true,
  path: true,
  walkOrder: true,
  capacity: true,
  note: true,
  version: true,
} as const

/** A place with what only its own page and forms want. */
export type PlaceRecord = Place & { note: string | null; version: number }

/** Enough of a place to draw its label and lead there. */
export type PlaceTag = Pick<Place, 'id' | 'label' | 'name' | 'kind'>

export const placeTagColumns = { select: { id: true, label: true, name: true, kind: true } } as const
