import type { CutFrom, CutWay } from '#lib/cloth/cut-plan'
import type { ChoiceDesign, ChoiceWorld } from './choice-world'

/** Of some designs, so many at most can be cut from one piece. */
export type CutLimit = { pieceId: string; designIds: readonly string[]; most: number }

/** One row of the model: the designs' shares of a piece, which may not sum to more than one. */
export type ShareRow = { pieceId: string; shares: ReadonlyMap<string, number> }

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
 * areas with one side or both taken through the functions above. A design counts what it counts in its least way. Rows that all
 * designs together keep to are left out.
 */
export function shareRows({ designs, pieces, gapUm }: ChoiceWorld): ShareRow[] {
  return pieces.flatMap((piece) => {
    const [wide, high] = [piece.widthUm + gapUm, piece.heightUm + gapUm]
    const rows: ShareRow[] = []
    const seen = new Set<string>()
    for (const across of shareFunctions) {
      for (const up of shareFunctions) {
        const shares = new Map<string, number>()
        for (const { id, ways } of designs) {
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

/** Whether some designs together go beyond a row of a piece, so that they cannot all be cut from it. */
export const isBeyond = (rows: readonly ShareRow[], designIds: readonly string[]): boolean =>
  rows.some(({ shares }) => designIds.reduce((sum, id) => sum + (shares.get(id) ?? 0), 0) > 1 + 1e-9)

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
 * Everything that follows from having found that of some designs only so many can be cut from a piece.
 *
 * On the same piece, designs no smaller than each of these may stand in for them: of all of them together no more can be cut. Of a pair
 * that excludes each other, all designs that exclude both and one another are taken in. And the same holds on every other piece that
 * is no larger, where the designs are no smaller.
 */
export function spreadLimit(world: ChoiceWorld, found: CutLimit): CutLimit[] {
  const { pieces, designs, gapUm } = world
  const piece = pieces.find(({ id }) => id === found.pieceId)
  if (!piece) throw new RangeError(`spreadLimit: no piece ${found.pieceId}`)
  const named = found.designIds.map((id) => designs.find((design) => design.id === id) as ChoiceDesign)
  const waysOn = (design: ChoiceDesign, on: CutFrom) => design.ways[on.id] ?? []
  return pieces.flatMap((on): CutLimit[] => {
    const isNoLarger = on.widthUm <= piece.widthUm && on.heightUm <= piece.heightUm
    const own = named.filter((design) => waysOn(design, on).length > 0)
    if (!isNoLarger || own.length <= found.most) return []
    if (!own.every((design) => isNoSmaller(waysOn(design, on), waysOn(design, piece)))) return []
    const members = [...own]
    for (const design of designs) {
      const ways = waysOn(design, on)
      if (ways.length === 0 || members.includes(design)) continue
      const isLarger = named.every((one) => isNoSmaller(ways, waysOn(one, piece)))
      const excludesAll = found.most === 1 && members.every((one) => !canBothBeCut(ways, waysOn(one, on), on, gapUm))
      if (isLarger || excludesAll) members.push(design)
    }
    return [{ pieceId: on.id, designIds: members.map(({ id }) => id), most: found.most }]
  })
}
