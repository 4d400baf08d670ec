import { type ColourFamily, colourFamilies } from '#lib/colour/family'
import { meanPerInch } from '#lib/quantity/count'
import { byText } from '#lib/quantity/text-order'
import { clothFamilies, isOfColour } from './cloth-colour'
import type { ClothPiece, Weave } from './cloth-piece'
import { isNearCount } from './match-cloth'

/** What a list of cloth is narrowed to; null or false narrows nothing. */
export type ClothFilter = {
  weave: Weave | null
  /** Threads to the inch; cloth near that count counts too, see `isNearCount`. */
  count: number | null
  /** In words: a family, two that it lies between, or its name; see `isOfColour`. */
  colour: string | null
  /** The least it may measure: width along the weft, or the other way about where the piece may be turned. */
  atLeast: { widthUm: number; heightUm: number } | null
  /** Where it lies now. */
  placeId: string | null
  onlyOffcuts: boolean
  /** Not kept for anything. */
  onlyFree: boolean
}

/** A piece in a list, with the place it lies in now. */
type ListedPiece = ClothPiece & { current: { id: string } | null }

export type ClothFacet = 'weave' | 'count' | 'colour' | 'placeId'

const passesFacet: Record<ClothFacet, (piece: ListedPiece, filter: ClothFilter) => boolean> = {
  weave: ({ weave }, filter) => filter.weave === null || weave === filter.weave,
  count: (piece, { count }) => count === null || isNearCount(piece, count),
  colour: (piece, { colour }) => colour === null || isOfColour(piece, colour),
  placeId: ({ current }, { placeId }) => placeId === null || current?.id === placeId,
}
const facets = Object.keys(passesFacet) as ClothFacet[]

/** How a piece is large enough: as it lies, turned, or not. */
export function largeEnough(
  piece: Pick<ClothPiece, 'widthUm' | 'heightUm' | 'isTurnable'>,
  { widthUm, heightUm }: { widthUm: number; heightUm: number },
): 'upright' | 'turned' | null {
  if (piece.widthUm >= widthUm && piece.heightUm >= heightUm) return 'upright'
  return piece.isTurnable && piece.widthUm >= heightUm && piece.heightUm >= widthUm ? 'turned' : null
}

/** Choices that have no list to choose from. */
const passesRest = (piece: ListedPiece, filter: ClothFilter): boolean =>
  (!filter.onlyOffcuts || piece.isOffcut) &&
  (!filter.onlyFree || !piece.isReserved) &&
  (filter.atLeast === null || largeEnough(piece, filter.atLeast) !== null)

/** Single-thread cloths before block cloth, coarse before fine, then name, colour, the larger piece, id. */
const inOrder = (a: ListedPiece, b: ListedPiece): number =>
  Number(a.weave === 'block') - Number(b.weave === 'block') ||
  meanPerInch(a.ends, a.picks) - meanPerInch(b.ends, b.picks) ||
  byText(a.name, b.name) ||
  byText(a.colourName ?? '', b.colourName ?? '') ||
  b.widthUm * b.heightUm - a.widthUm * a.heightUm ||
  byText(a.id, b.id)

/** The choices for each facet, and how many pieces each would show with the other choices as they are. */
export type ClothChoiceCounts = {
  weave: Map<Weave, number>
  /** Whole threads to the inch near which some cloth lies, coarse before fine. */
  count: Map<number, number>
  /** One family, `blue`, then two that some cloth lies between, `grey blue`; in the order one goes round them. */
  family: Map<string, number>
  /** By the name of the colour. */
  colour: Map<string, number>
  placeId: Map<string, number>
}

/**
 * Narrow a list of cloth, and count for each choice how many pieces it would show. The order of `pieces` makes no difference; where a
 * count is asked for, the nearest to it come first.
 */
export function filterCloth<P extends ListedPiece>(
  pieces: readonly P[],
  filter: ClothFilter,
): { shown: P[]; choices: ClothChoiceCounts } {
  const { count } = filter
  const off = ({ ends, picks }: P) => (count === null ? 0 : Math.abs(meanPerInch(ends, picks) - count))
  const sorted = [...pieces].sort((a, b) => off(a) - off(b) || inOrder(a, b))
  const judged = sorted
    .filter((piece) => passesRest(piece, filter))
    .map((piece) => ({ piece, failed: facets.filter((facet) => !passesFacet[facet](piece, filter)) }))
  /** What would be shown with one choice let go. */
  const but = (facet: ClothFacet) => judged.filter(({ failed }) => failed.every((one) => one === facet)).map(({ piece }) => piece)
  const butColour = but('colour')
  const butCount = but('count')
  const wholeCounts = new Set(butCount.map(({ ends, picks }) => Math.round(meanPerInch(ends, picks))))
  return {
    shown: judged.filter(({ failed }) => failed.length === 0).map(({ piece }) => piece),
    choices: {
      weave: tally(but('weave'), ({ weave }) => [weave]),
      count: new Map(
        [...wholeCounts]
          .sort((a, b) => a - b)
          .map((whole) => [whole, butCount.filter((piece) => isNearCount(piece, whole)).length]),
      ),
      family: inFamilyOrder(tally(butColour, (piece) => familiesAndPairs(clothFamilies(piece)))),
      colour: tally(butColour, ({ colourName }) => (colourName === null ? [] : [colourName])),
      placeId: tally(but('placeId'), ({ current }) => (current ? [current.id] : [])),
    },
  }
}

const pairsOf = (families: readonly ColourFamily[]): string[] =>
  families.flatMap((one, at) => families.slice(at + 1).map((other) => `${one} ${other}`))
const familiesAndPairs = (families: readonly ColourFamily[]): string[] => [...families, ...pairsOf(families)]

function inFamilyOrder(counts: ReadonlyMap<string, number>): Map<string, number> {
  return new Map(
    familiesAndPairs(colourFamilies).flatMap((value) => {
      const count = counts.get(value)
      return count === undefined ? [] : [[value, count] as const]
    }),
  )
}

function tally<P, Value>(pieces: readonly P[], valuesOf: (piece: P) => readonly Value[]): Map<Value, number> {
  const counts = new Map<Value, number>()
  for (const piece of pieces) for (const value of valuesOf(piece)) counts.set(value, (counts.get(value) ?? 0) + 1)
  return counts
}
