import type { CutRequest } from '../cut-plan'

/** One way a wanted piece may lie. Sides include the gap that is lost beside it. */
export type Way = { width: number; height: number; isTurned: boolean }

/** Something wanted, so many times. */
export type Wanted = { id: string; copies: number; value: number }

/** A piece to cut from, as long and wide again by one gap: what lies at its edge needs none beside it. */
export type Sheet = { id: string; width: number; height: number; clothIndex: number }

/**
 * A request as the solver takes it. The gap along each cut is put on the right and the head of everything, and of the piece as well:
 * then plain rectangles are cut without a gap. Lengths are whole micrometres.
 */
export type CutProblem = {
  wanted: Wanted[]
  sheets: Sheet[]
  /** For each cloth (sheets on which everything lies alike), how each wanted piece may lie on it. */
  cloths: { ways: Way[][] }[]
  gap: number
  leastOffcut: number
}

/**
 * @throws {RangeError} if a side, gap or number of copies is not a whole number, or is too small or large to be one.
 */
export function cutProblem({ pieces, wishes, gapUm, leastOffcutUm }: CutRequest): CutProblem {
  const checked = (value: number, least: number): number => {
    if (Number.isSafeInteger(value) && value >= least && value < 1e9) return value
    throw new RangeError(`searchCuts: ${value} where a whole number of at least ${least} is wanted`)
  }
  checked(gapUm, 0)
  checked(leastOffcutUm, 0)
  const cloths: CutProblem['cloths'] = []
  const known = new Map<string, number>()
  const sheets = pieces.map(({ id, widthUm, heightUm }): Sheet => {
    const ways = wishes.map((wish) => {
      const seen = new Set<string>()
      return (wish.ways[id] ?? []).flatMap(({ widthUm: wayWidthUm, heightUm: wayHeightUm, isTurned }): Way[] => {
        const way = { width: checked(wayWidthUm, 1) + gapUm, height: checked(wayHeightUm, 1) + gapUm, isTurned }
        const size = `${way.width} ${way.height}`
        if (seen.has(size)) return []
        seen.add(size)
        return [way]
      })
    })
    const key = JSON.stringify(ways)
    let clothIndex = known.get(key)
    if (clothIndex === undefined) {
      clothIndex = cloths.push({ ways }) - 1
      known.set(key, clothIndex)
    }
    return { id, width: checked(widthUm, 1) + gapUm, height: checked(heightUm, 1) + gapUm, clothIndex }
  })
  const wanted = wishes.map(({ id, copies, value }): Wanted => ({ id, copies: checked(copies, 1), value: checked(value, 1) }))
  return { wanted, sheets, cloths, gap: gapUm, leastOffcut: leastOffcutUm }
}
