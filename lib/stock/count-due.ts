import type { AbcClass } from './abc'
import { compareExact } from './batch'

/** A batch and when it was last counted; null when it never was. */
export type LastCounted = { placeId: string; countedAt: Date | null; abc: AbcClass }

export type PlaceDue = {
  placeId: string
  /** Batches there in all, those due, and those of them never counted. */
  batches: number
  due: number
  never: number
  /** Due ones of the threads that most is used of. */
  dueA: number
  /** The longest ago anything due there was counted; null when nothing due ever was. */
  oldest: Date | null
}

/**
 * Places holding what has not been counted since a day, those with most of the threads that sell first, then those with most that is
 * due. The order handed in makes no difference.
 */
export function placesDue(batches: readonly LastCounted[], since: Date): PlaceDue[] {
  const byPlace = new Map<string, PlaceDue>()
  for (const { placeId, countedAt, abc } of batches) {
    const place = byPlace.get(placeId) ?? { placeId, batches: 0, due: 0, never: 0, dueA: 0, oldest: null }
    byPlace.set(placeId, place)
    place.batches += 1
    if (countedAt !== null && countedAt >= since) continue
    place.due += 1
    place.dueA += abc === 'A' ? 1 : 0
    if (countedAt === null) place.never += 1
    else if (place.oldest === null || countedAt < place.oldest) place.oldest = countedAt
  }
  return [...byPlace.values()]
    .filter(({ due }) => due > 0)
    .sort((a, b) => b.dueA - a.dueA || b.due - a.due || compareExact(a.placeId, b.placeId))
}
