import { compareExact } from './batch'
import type { MovementKind } from './stock-change'

/** A line of the journal, as far as it says where a thing lived. */
export type HomeEvidence = {
  kind: MovementKind
  /** Lines of one write share it; a later write has a higher one. */
  revision: number
  at: Date
  thingId: string
  fromPlaceId: string | null
  toPlaceId: string | null
}

export type FormerHome = {
  placeId: string
  /** When the last thing that lived there was moved away. */
  until: Date
  /** What lived there and lives elsewhere now, by id. */
  thingIds: string[]
}

/**
 * Where things lived before they were given another home: what an old label, or an old list, still says. The latest left comes first.
 *
 * A home is not written down in the journal, so it is read from what is: a thing that was put back somewhere lived there, and so did one
 * that came into, or was moved from, a place where things are kept. A move for a while ends in being put back and so leaves no former home.
 *
 * @param input.homeOf     where each thing lives now; things not among them are passed over
 * @param input.isPassage  whether a place is one that things pass through, such as a project's bag: coming into it or being moved out of it says nothing
 */
export function formerHomes(input: {
  lines: readonly HomeEvidence[]
  homeOf: ReadonlyMap<string, string | null>
  isPassage: (placeId: string) => boolean
}): FormerHome[] {
  const homes = new Map<string, { until: Date; revision: number; thingIds: Set<string> }>()
  const lived = new Map<string, Set<string>>()
  const lines = [...input.lines].sort((a, b) => a.revision - b.revision)
  for (const { kind, thingId, fromPlaceId, toPlaceId } of lines) {
    const place = kind === 'move' ? fromPlaceId : kind === 'receive' || kind === 'return' || kind === 'merge' ? toPlaceId : null
    // Only what is put back has its home for certain where it goes; the rest may lie in a bag for a while.
    if (place !== null && kind !== 'return' && input.isPassage(place)) continue
    if (place === null) continue
    const places = lived.get(thingId)
    if (places) places.add(place)
    else lived.set(thingId, new Set([place]))
  }
  for (const { thingId, revision, at, fromPlaceId, toPlaceId } of lines) {
    const home = input.homeOf.get(thingId)
    const wasHome = fromPlaceId !== null && fromPlaceId !== toPlaceId && lived.get(thingId)?.has(fromPlaceId)
    if (home === undefined || !wasHome || fromPlaceId === home) continue
    const former = homes.get(fromPlaceId) ?? { until: at, revision, thingIds: new Set() }
    if (revision >= former.revision) Object.assign(former, { until: at, revision })
    former.thingIds.add(thingId)
    homes.set(fromPlaceId, former)
  }
  return [...homes]
    .sort(([a, x], [b, y]) => y.revision - x.revision || compareExact(a, b))
    .map(([placeId, { until, thingIds }]) => ({ placeId, until, thingIds: [...thingIds].sort(compareExact) }))
}
