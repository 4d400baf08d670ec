import { meanPerInch } from '#lib/quantity/count'
import type { ClothPiece, Weave } from './cloth-piece'
import { nominalCountLabel } from './match-cloth'

/** What a list of cloth is narrowed to; null or false narrows nothing. */
export type ClothFilter = {
  weave: Weave | null
  /** As one speaks of it: 28, 34 × 31. */
  count: string | null
  colour: string | null
  /** Where it lies now. */
  placeId: string | null
  onlyOffcuts: boolean
  /** Not kept for a project. */
  onlyFree: boolean
}

/** A piece in a list, with the place it lies in now. */
type ListedPiece = ClothPiece & { current: { id: string } | null }

export type ClothFacet = 'weave' | 'count' | 'colour' | 'placeId'

const readFacet: Record<ClothFacet, (piece: ListedPiece) => string | null> = {
  weave: ({ weave }) => weave,
  count: ({ ends, picks }) => nominalCountLabel(ends, picks),
  colour: ({ colourName }) => colourName,
  placeId: ({ current }) => current?.id ?? null,
}
const facets = Object.keys(readFacet) as ClothFacet[]

const passes = (piece: ListedPiece, filter: ClothFilter, but: ClothFacet | null): boolean =>
  (!filter.onlyOffcuts || piece.isOffcut) &&
  (!filter.onlyFree || !piece.isReserved) &&
  facets.every((facet) => facet === but || filter[facet] === null || readFacet[facet](piece) === filter[facet])

const byText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0)

/** Single-thread cloths before block cloth, coarse before fine, then name, colour, the larger piece, id. */
const inOrder = (a: ListedPiece, b: ListedPiece): number =>
  Number(a.weave === 'block') - Number(b.weave === 'block') ||
  meanPerInch(a.ends, a.picks) - meanPerInch(b.ends, b.picks) ||
  byText(a.name, b.name) ||
  byText(a.colourName ?? '', b.colourName ?? '') ||
  b.widthUm * b.heightUm - a.widthUm * a.heightUm ||
  byText(a.id, b.id)

/**
 * Narrow a list of cloth, and count for each choice how many pieces it would show with the other choices as they are.
 * The order of `pieces` makes no difference.
 */
export function filterCloth<P extends ListedPiece>(
  pieces: readonly P[],
  filter: ClothFilter,
): { shown: P[]; choices: Record<ClothFacet, Map<string, number>> } {
  const sorted = [...pieces].sort(inOrder)
  const countChoices = (facet: ClothFacet): Map<string, number> => {
    const counts = new Map<string, number>()
    for (const piece of sorted) {
      const value = readFacet[facet](piece)
      if (value !== null && passes(piece, filter, facet)) counts.set(value, (counts.get(value) ?? 0) + 1)
    }
    return counts
  }
  return {
    shown: sorted.filter((piece) => passes(piece, filter, null)),
    choices: {
      weave: countChoices('weave'),
      count: countChoices('count'),
      colour: countChoices('colour'),
      placeId: countChoices('placeId'),
    },
  }
}
