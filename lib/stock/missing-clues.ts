import { compareExact } from './batch'

/** Why a thing may be in a place, the strongest reason first. */
export const clueKinds = [
  'counted-over',
  'found-in-count',
  'more-out',
  'project-bag',
  'next-to',
  'lived-there',
  'was-there',
  'more-home',
] as const
export type ClueKind = (typeof clueKinds)[number]

/** One reason to look in one place. */
export type Clue = { placeId: string; kind: ClueKind; text: string | null; at: Date | null }

export type ClueAt = { placeId: string; clues: Clue[] }

/**
 * Where to look for what is missing: places with the reasons for each, the likeliest first. What was seen by somebody comes before what
 * only could be: a count that found too many, a bag with more of the same thread, the compartment beside. Common practice, no published
 * source. Several reasons for one place count for more than one of them alone.
 *
 * @param excluded  places that were looked in: where it was seen last, and the record's own place for what was not found
 */
export function rankClues(clues: readonly Clue[], excluded: ReadonlySet<string>): ClueAt[] {
  const byPlace = new Map<string, Clue[]>()
  for (const clue of clues) {
    if (excluded.has(clue.placeId)) continue
    const known = byPlace.get(clue.placeId) ?? []
    if (!known.some(({ kind, text }) => kind === clue.kind && text === clue.text)) known.push(clue)
    byPlace.set(clue.placeId, known)
  }
  const weight = ({ kind }: Clue) => clueKinds.indexOf(kind)
  const latest = (list: readonly Clue[]) => Math.max(...list.map(({ at }) => at?.getTime() ?? 0))
  return [...byPlace]
    .map(([placeId, list]) => ({
      placeId,
      clues: list.sort(
        (a, b) => weight(a) - weight(b) || (b.at?.getTime() ?? 0) - (a.at?.getTime() ?? 0) || compareExact(a.text, b.text),
      ),
    }))
    .sort(
      (a, b) =>
        weight(a.clues[0] as Clue) - weight(b.clues[0] as Clue) ||
        b.clues.length - a.clues.length ||
        latest(b.clues) - latest(a.clues) ||
        compareExact(a.placeId, b.placeId),
    )
}
