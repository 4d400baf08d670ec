import { type LabelPattern, levelInPattern, nextFreeLabel, parseLabelPattern } from './label-pattern'
import type { GivenPlaceKind, Place } from './place'

/** A pattern the shop labels its places by: its text, what each level is, and what the outermost stand in (null: nothing). */
export type OwnPattern = { text: string; kinds: readonly GivenPlaceKind[]; insideId: string | null }

export type PatternHere = { text: string; pattern: LabelPattern; level: number; kind: GivenPlaceKind | null }

/**
 * The patterns by which what stands right inside a place is labelled: those kept for that place, and those one of whose inner levels its
 * own label stands above. One that does not read is passed over.
 *
 * @param parent  null for what stands in nothing
 */
export function patternsInside(own: readonly OwnPattern[], parent: Pick<Place, 'id' | 'label'> | null): PatternHere[] {
  return own.flatMap(({ text, kinds, insideId }) => {
    const read = parseLabelPattern(text)
    if (!read.ok) return []
    const pattern = read.value
    const above = insideId === (parent?.id ?? null) ? -1 : parent ? levelInPattern(pattern, parent.label) : null
    const level = (above ?? pattern.length) + 1
    return level < pattern.length ? { text, pattern, level, kind: kinds[level] ?? null } : []
  })
}

/** The next free label inside a place by the shop's patterns, and what it would be: one for each pattern that has any left. */
export const nextLabels = (
  own: readonly OwnPattern[],
  parent: Pick<Place, 'id' | 'label'> | null,
  isTaken: (label: string) => boolean,
): { label: string; kind: GivenPlaceKind | null; text: string }[] =>
  patternsInside(own, parent).flatMap(({ text, pattern, level, kind }) => {
    const label = nextFreeLabel(pattern, level, level === 0 ? null : (parent?.label ?? null), isTaken)
    return label === null ? [] : { label, kind, text }
  })

/**
 * The pattern a label does not fit, of those for places of its kind where it stands; null when it fits one, or when none says anything of
 * such places. It is told, never refused: not every shop's cabinet is regular.
 */
export function misfit(
  own: readonly OwnPattern[],
  place: Pick<Place, 'label' | 'kind'>,
  parent: Pick<Place, 'id' | 'label'> | null,
): string | null {
  const speaking = patternsInside(own, parent).filter(({ kind }) => kind === place.kind)
  const [first] = speaking
  if (!first) return null
  const fits = speaking.some(
    ({ pattern, level }) =>
      levelInPattern(pattern, place.label) === level && (level === 0 || place.label.startsWith(parent?.label ?? '')),
  )
  return fits ? null : first.text
}
