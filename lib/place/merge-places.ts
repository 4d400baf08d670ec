import { ok, type Result, refused } from '#lib/result'
import { isPeople, type Place } from './place'
import { isInside } from './place-tree'

/** Where a thing lives and where it lies; null is nowhere given. */
export type Housing = { homePlaceId: string | null; currentPlaceId: string | null }

export type MergeRefused =
  | { kind: 'same-place' }
  /** The place it is to go into stands inside it. */
  | { kind: 'inside-itself'; placeId: string }
  /** One is a person, the other a piece of furniture. */
  | { kind: 'person-and-place' }
  /** The place of what was not found is the record's own. */
  | { kind: 'kept-by-record' }

type Merging = Pick<Place, 'id' | 'path' | 'kind'>

/** Whether one place may be given up for another. What lies in it, lives there or stands inside it is no obstacle: it goes along. */
export function checkMerge(from: Merging, into: Merging): Result<null, MergeRefused> {
  if (from.id === into.id) return refused({ kind: 'same-place' })
  if (from.kind === 'not found' || into.kind === 'not found') return refused({ kind: 'kept-by-record' })
  if (isInside(into, from)) return refused({ kind: 'inside-itself', placeId: into.id })
  if (isPeople(from.kind) !== isPeople(into.kind)) return refused({ kind: 'person-and-place' })
  return ok(null)
}

/**
 * A thing's housing once everything of one place belongs to another: whatever named the one names the other. What lay elsewhere stays
 * there; what lay at home lies at the new home.
 */
export const rehoused = ({ homePlaceId, currentPlaceId }: Housing, fromId: string, intoId: string): Housing => ({
  homePlaceId: homePlaceId === fromId ? intoId : homePlaceId,
  currentPlaceId: currentPlaceId === fromId ? intoId : currentPlaceId,
})

/**
 * What a place takes once it has the room of another too: the sum, as far as either is known. A place whose room is not known does not
 * make the other's unknown.
 */
export function addedRoom(into: RoomGiven, from: RoomGiven): RoomGiven {
  const byWord = new Map(into.putUps.map((one) => [one.putUpWord, one.most]))
  for (const { putUpWord, most } of from.putUps) byWord.set(putUpWord, (byWord.get(putUpWord) ?? 0) + most)
  return {
    capacity: into.capacity === null && from.capacity === null ? null : (into.capacity ?? 0) + (from.capacity ?? 0),
    putUps: [...byWord].map(([putUpWord, most]) => ({ putUpWord, most })),
  }
}

/** How much a place takes: of anything, and of each kind of put-up. */
export type RoomGiven = { capacity: number | null; putUps: readonly { putUpWord: string; most: number }[] }
