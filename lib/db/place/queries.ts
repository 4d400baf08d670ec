import 'server-only'
import type { Place, PlaceKind } from '#lib/place/place'
import { placePath } from '#lib/place/place-tree'
import { walkOrder } from '#lib/place/walk-order'
import { database } from '../client'
import { findMeant } from './look-up-label'
import { type PlaceRecord, placeColumns } from './place-rows'

/** Every place, in walking order: each before what is inside it. */
export async function listPlaces(): Promise<PlaceRecord[]> {
  const rows = (await database().prisma.place.findMany({ where: { goneAt: null }, select: placeColumns })) as PlaceRecord[]
  const ids = new Set(rows.map(({ id }) => id))
  // A place whose parent was removed stands at the top.
  const places = rows.map((row) => (row.parentId !== null && !ids.has(row.parentId) ? { ...row, parentId: null } : row))
  return walkOrder(places) as PlaceRecord[]
}

/** A place to choose in a form. `pathText` names it with all it is inside: Kitting room › Cabinet T › T2.1. */
export type PlaceOption = { id: string; label: string; kind: PlaceKind; depth: number; pathText: string }

/** Every place in walking order, for a form's choices and suggestions. */
export const listPlaceOptions = async (): Promise<PlaceOption[]> =>
  // Nobody puts a thing where the record keeps what was not found.
  placeOptions((await listPlaces()).filter(({ kind }) => kind !== 'not found'))

/** As `listPlaceOptions`, of places already read. */
export function placeOptions(places: readonly Place[]): PlaceOption[] {
  const byId = new Map(places.map((place) => [place.id, place]))
  return places.map((place) => {
    const path = placePath(place, byId)
    return {
      id: place.id,
      label: place.label,
      kind: place.kind,
      depth: path.length - 1,
      pathText: path.map(({ label }) => label).join(' › '),
    }
  })
}

/** The place with that label, however it was spelt, else the one an old label of that spelling means now; or null. */
export async function findPlaceByLabel(label: string): Promise<PlaceRecord | null> {
  const { prisma } = database()
  const meant = await findMeant(label)
  if (!meant) return null
  return (await prisma.place.findFirst({ where: { id: meant.id, goneAt: null }, select: placeColumns })) as PlaceRecord | null
}
