// A cut plan worked by hand: a scenario of the trade. Fat quarter squared 18 × 27 in, square count, may be turned. Wanted: 11 × 11, two
// 8 × 8, one 6 × 12. A first cut at 12 along the 27: the block of 18 × 12 holds 11 + 6 = 17 wide; a second cut at 8: 18 × 8 holds
// 8 + 8 = 16. Left 18 × 7 and slivers; used 121 + 64 + 64 + 72 = 321 of 486 sq in = 66 %. A third 8 × 8 does not go: 7 < 8. Squared
// to 17.5 × 26.5 it still fits (17 ≤ 17.5, 20 ≤ 26.5), left 17.5 × 6.5.
import { describe, expect, it } from 'vitest'
import { UM_PER_INCH } from '#lib/quantity/cloth-length'
import { checkPlan, lastPlan, sizesAsRequest } from '#tests/property/cut-checks'

const inches = (sizes: readonly (readonly number[])[]) =>
  sizes.map((size) => size.map((inch, at) => (at < 2 ? inch * UM_PER_INCH : inch)))
const wanted = inches([
  [11, 11, 1, 1],
  [8, 8, 2, 1],
  [6, 12, 1, 1],
])
const squareInch = UM_PER_INCH ** 2

const plan = (piece: [number, number], items = wanted, objective: 'largest offcut' | 'most value' = 'largest offcut') => {
  const request = sizesAsRequest({
    ...{ pieces: inches([piece]), items, isTurnable: true, objective },
    ...{ gapUm: 0, leastOffcutUm: 5 * UM_PER_INCH },
  })
  const found = lastPlan(request)
  checkPlan(found, request)
  return found
}

describe('four pieces from a fat quarter', () => {
  it('are all cut, 321 of 486 square inches', () => {
    const { leftOut, isProved, layouts } = plan([18, 27])
    expect([leftOut, isProved, layouts.length]).toEqual([[], true, 1])
    expect(Math.round((321 / 486) * 100)).toBe(66)
  })

  it('leave 18 × 7 whole, as the hand-made plan does, and no plan leaves more', () => {
    const { largestOffcutsUm2, isProved } = plan([18, 27])
    expect([largestOffcutsUm2 / squareInch, isProved]).toEqual([18 * 7, true])
  })

  it('are cut as well from a piece that squares to 17.5 × 26.5, and leave 17.5 × 6.5', () => {
    const { leftOut, largestOffcutsUm2 } = plan([17.5, 26.5])
    expect([leftOut, largestOffcutsUm2 / squareInch]).toEqual([[], 17.5 * 6.5])
  })

  // By hand: 7 < 8, so not beside that layout. Laid out anew a third does go on the full 18 × 27, but not once it squares to less.
  it('take a third 8 × 8 only when all is laid out anew, and only before squaring takes half an inch', () => {
    const third = inches([
      [11, 11, 1, 1],
      [8, 8, 3, 1],
      [6, 12, 1, 1],
    ])
    const whole = plan([18, 27], third, 'most value')
    expect(whole.leftOut).toEqual([])
    expect(whole.largestOffcutsUm2 / squareInch).toBeLessThan(18 * 7)
    expect(plan([17.5, 26.5], third, 'most value')).toMatchObject({ value: 4, valueBound: 4, isProved: true })
  })
})
