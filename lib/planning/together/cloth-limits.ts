import type { CutFrom, CutWay } from '#lib/cloth/cut-plan'
import type { ChoiceDesign, ChoiceWorld, Placed } from './choice-world'

/** One cut: a copy of a design. On each piece a design's copies are counted from the first, so that equal sets have equal names. */
export type CutUnit = { id: string; designId: string; ways: ChoiceDesign['ways'] }

/** Of some cuts, so many at most come out of one piece. */
export type CutLimit = { pieceId: string; unitIds: readonly string[]; most: number }

/** One row of the model: the cuts' shares of a piece, which may not sum to more than one. */
export type ShareRow = { pieceId: string; shares: ReadonlyMap<string, number> }

/** No id has it. */
const separator = '\u001f'

/** The name of a design's cut of this number, from 0; of the first it is the design's own. */
export const unitId = (designId: string, copy: number): string => (copy === 0 ? designId : `${designId}${separator}${copy}`)

/** What a cut's name says. */
export function unitOf(id: string): { designId: string; copy: number } {
  const [designId = id, copy = '0'] = id.split(separator)
  return { designId, copy: Number(copy) }
}

/** Every cut that could be made of a piece. */
export const cutUnits = ({ designs }: Pick<ChoiceWorld, 'designs'>): CutUnit[] =>
  designs.flatMap(({ id: designId, copies, ways }) =>
    Array.from({ length: copies }, (_, copy) => ({ id: unitId(designId, copy), designId, ways })),
  )

/** What the chosen designs have cut from a piece. */
export const unitsOn = (placed: readonly Placed[], pieceId: string): string[] =>
  placed.flatMap(({ designId, pieceIds }) => pieceIds.filter((id) => id === pieceId).map((_, copy) => unitId(designId, copy)))

/**
 * Functions that may stand for a length without letting anything impossible through: whatever lengths fit in one, their images sum to
 * one at most. The length itself; and u⁽ᵏ⁾(x) = x where (k + 1)x is whole, else ⌊(k + 1)x⌋ ÷ k, which counts what is longer than a half,
 * a third … in full (S. P. Fekete and J. Schepers, "New classes of fast lower bounds for bin packing problems", Mathematical
 * Programming 91, 2001). Fractions are of `wholeUm`; both are whole.
 */
const shareFunctions: readonly ((um: number, wholeUm: number) => number)[] = [
  (um, wholeUm) => um / wholeUm,
  ...[1, 2, 3, 4].map(
    (k) => (um: number, wholeUm: number) =>
      ((k + 1) * um) % wholeUm === 0 ? um / wholeUm : Math.floor(((k + 1) * um) / wholeUm) / k,
  ),
]

/** Shares are rounded down, so that no row forbids what can be cut. */
const roundedDown = (share: number): number => Math.floor(share * 1e6) / 1e6

/**
 * For each piece, what no set of designs cut from it can go beyond, whether the cuts go from edge to edge or not: their areas, and their
 * areas with one side or both taken through the functions above. A cut counts what it counts in its least way. Rows that all
 * cuts together keep to are left out.
 */
export function shareRows({ designs, pieces, gapUm }: Pick<ChoiceWorld, 'designs' | 'pieces' | 'gapUm'>): ShareRow[] {
  const units = cutUnits({ designs })
  return (pieces ?? []).flatMap((piece) => {
    const [wide, high] = [piece.widthUm + gapUm, piece.heightUm + gapUm]
    const rows: ShareRow[] = []
    const seen = new Set<string>()
    for (const across of shareFunctions) {
      for (const up of shareFunctions) {
        const shares = new Map<string, number>()
        for (const { id, ways } of units) {
          const own = ways[piece.id] ?? []
          if (own.length === 0) continue
          const least = Math.min(
            ...own.map(({ widthUm, heightUm }) => across(widthUm + gapUm, wide) * up(heightUm + gapUm, high)),
          )
          if (roundedDown(least) > 0) shares.set(id, roundedDown(least))
        }
        const sum = [...shares.values()].reduce((total, share) => total + share, 0)
        const key = JSON.stringify([...shares])
        if (sum <= 1 || seen.has(key)) continue
        seen.add(key)
        rows.push({ pieceId: piece.id, shares })
      }
    }
    return rows
  })
}

/** Whether some cuts together go beyond a row of a piece, so that they cannot all be made of it. */
export const isBeyond = (rows: readonly ShareRow[], unitIds: readonly string[]): boolean =>
  rows.some(({ shares }) => unitIds.reduce((sum, id) => sum + (shares.get(id) ?? 0), 0) > 1 + 1e-9)

const holds = (outer: CutWay, inner: CutWay): boolean => inner.widthUm <= outer.widthUm && inner.heightUm <= outer.heightUm

/** However the first may lie, the second could lie within it. */
const isNoSmaller = (larger: readonly CutWay[], smaller: readonly CutWay[]): boolean =>
  larger.every((way) => smaller.some((one) => holds(way, one)))

/** Whether two designs can come out of one piece: side by side or one above the other, for two boxes leave no other cut. */
function canBothBeCut(one: readonly CutWay[], other: readonly CutWay[], piece: CutFrom, gapUm: number): boolean {
  return one.some((a) =>
    other.some(
      (b) =>
        (a.widthUm + gapUm + b.widthUm <= piece.widthUm && Math.max(a.heightUm, b.heightUm) <= piece.heightUm) ||
        (a.heightUm + gapUm + b.heightUm <= piece.heightUm && Math.max(a.widthUm, b.widthUm) <= piece.widthUm),
    ),
  )
}

/**
 * Everything that follows from having found that of some cuts only so many come out of a piece.
 *
 * On the same piece, cuts no smaller than each of these may stand in for them: of all of them together no more can be made. Of a pair
 * that excludes each other, all cuts that exclude both and one another are taken in. And the same holds on every other piece that
 * is no larger, where the cuts are no smaller.
 */
export function spreadLimit(world: ChoiceWorld, found: CutLimit): CutLimit[] {
  const { gapUm } = world
  const [pieces, units] = [world.pieces ?? [], cutUnits(world)]
  const piece = pieces.find(({ id }) => id === found.pieceId)
  if (!piece) throw new RangeError(`spreadLimit: no piece ${found.pieceId}`)
  const named = found.unitIds.map((id) => units.find((unit) => unit.id === id) as CutUnit)
  const waysOn = (unit: CutUnit, on: CutFrom) => unit.ways[on.id] ?? []
  return pieces.flatMap((on): CutLimit[] => {
    const isNoLarger = on.widthUm <= piece.widthUm && on.heightUm <= piece.heightUm
    const own = named.filter((unit) => waysOn(unit, on).length > 0)
    if (!isNoLarger || own.length <= found.most) return []
    if (!own.every((unit) => isNoSmaller(waysOn(unit, on), waysOn(unit, piece)))) return []
    const members = [...own]
    for (const unit of units) {
      const ways = waysOn(unit, on)
      if (ways.length === 0 || members.includes(unit)) continue
      const isLarger = named.every((one) => isNoSmaller(ways, waysOn(one, piece)))
      const excludesAll = found.most === 1 && members.every((one) => !canBothBeCut(ways, waysOn(one, on), on, gapUm))
      if (isLarger || excludesAll) members.push(unit)
    }
    return [{ pieceId: on.id, unitIds: members.map(({ id }) => id), most: found.most }]
  })
}
