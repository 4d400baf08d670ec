import { ok, type Result, refused } from '#lib/result'
import type { Place } from './place'

/**
 * The places from the top down to and including `place`.
 *
 * @throws {RangeError} if a parent is missing from `byId`, or places are inside each other in a circle.
 */
export function placePath(place: Place, byId: ReadonlyMap<string, Place>): Place[] {
  const path = [place]
  for (let parentId = place.parentId; parentId !== null; parentId = (path[0] as Place).parentId) {
    const parent = byId.get(parentId)
    if (!parent) throw new RangeError(`placePath: no place ${parentId}`)
    if (path.includes(parent)) throw new RangeError(`placePath: ${place.id} is inside itself`)
    path.unshift(parent)
  }
  return path
}

/** Whether a place is the other one or inside it, at any depth. */
export const isInside = (place: Pick<Place, 'path'>, ancestor: Pick<Place, 'path'>): boolean =>
  place.path.startsWith(ancestor.path)

/** The path a place has under a parent; null for the top. */
export const pathUnder = (parent: Pick<Place, 'path'> | null, placeId: string): string => `${parent?.path ?? '/'}${placeId}/`

export type PlaceMove = { id: string; parentId: string | null; path: string }

/**
 * Put a place, with all inside it, into another (or at the top when `toParentId` is null).
 *
 * @param places  At least the place, all inside it, and the new parent.
 * @returns       The rows to rewrite, the place itself first, the others by path.
 */
export function planMovePlace(
  placeId: string,
  toParentId: string | null,
  places: readonly Place[],
): Result<
  PlaceMove[],
  { kind: 'no-such-place'; placeId: string } | { kind: 'inside-itself'; placeId: string } | { kind: 'already-there' }
> {
  const byId = new Map(places.map((place) => [place.id, place]))
  const place = byId.get(placeId)
  if (!place) return refused({ kind: 'no-such-place', placeId })
  const parent = toParentId === null ? null : byId.get(toParentId)
  if (parent === undefined) return refused({ kind: 'no-such-place', placeId: toParentId as string })
  if (parent && isInside(parent, place)) return refused({ kind: 'inside-itself', placeId })
  if (place.parentId === toParentId) return refused({ kind: 'already-there' })
  const path = pathUnder(parent, placeId)
  const inside = places
    .filter((other) => other.id !== placeId && isInside(other, place))
    .map((other) => ({ id: other.id, parentId: other.parentId, path: path + other.path.slice(place.path.length) }))
    .sort((a, b) => (a.path < b.path ? -1 : 1))
  return ok([{ id: placeId, parentId: toParentId, path }, ...inside])
}
