import { textKey } from '#lib/quantity/text-key'
import { expandLabelPattern, type LabelPattern } from './label-pattern'
import type { Place, PlaceKind } from './place'

/** What becomes of one label of a pattern. `there`: it stands just there already. `clash`: it stands somewhere else. */
export type ManyLine = {
  label: string
  level: number
  kind: PlaceKind
  insideLabel: string | null
  outcome: 'new' | 'there' | 'clash'
  /** The place that has the label already. */
  placeId: string | null
}

export type ManyPlan = {
  lines: ManyLine[]
  count: Record<ManyLine['outcome'], number>
}

/**
 * Hold the labels of a pattern against the places there are: which are to be made, which stand there already and which are taken by a place
 * that stands elsewhere. Inside one that stands elsewhere nothing can be made.
 *
 * @param kinds     what each level is; the last goes on for deeper ones
 * @param parentId  what the outermost stand in
 */
export function planManyPlaces({
  pattern,
  kinds,
  parentId,
  places,
}: {
  pattern: LabelPattern
  kinds: readonly PlaceKind[]
  parentId: string | null
  places: readonly Pick<Place, 'id' | 'label' | 'parentId'>[]
}): ManyPlan {
  const byKey = new Map(places.map((place) => [textKey(place.label), place]))
  const count = { new: 0, there: 0, clash: 0 }
  const lines = expandLabelPattern(pattern).map(({ label, level, insideLabel }): ManyLine => {
    const place = byKey.get(textKey(label))
    // A parent that is yet to be made has no id: whatever stands under this label then stands elsewhere.
    const wantedParent = insideLabel === null ? parentId : (byKey.get(textKey(insideLabel))?.id ?? undefined)
    const outcome = place === undefined ? 'new' : place.parentId === wantedParent ? 'there' : 'clash'
    count[outcome]++
    const kind = kinds[level] ?? kinds.at(-1) ?? 'box'
    return { label, level, kind, insideLabel, outcome, placeId: place?.id ?? null }
  })
  return { lines, count }
}
