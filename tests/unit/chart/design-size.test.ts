import { describe, expect, it } from 'vitest'
import { stitchSize } from '#lib/chart/design-size'

const advised = { count: { threads: 14, perUm: 25_400 }, over: 1 as const, weave: null, insists: false, name: null }

describe('the size of a design in stitches', () => {
  it('is exact when it is known so', () => {
    expect(stitchSize({ size: { kind: 'stitches', width: 140, height: 98 }, advised: null })).toEqual({
      width: 140,
      height: 98,
      uncertaintyUm: 0,
      isEstimated: false,
    })
  })

  // Section 3.1 of the trade notes: 8 × 6 in on 14 count is 112 × 84, give or take half a step of 1/4 in.
  it('is estimated from inches at the advised count', () => {
    const size = { kind: 'measured' as const, widthUm: 8 * 25_400, heightUm: 6 * 25_400 }
    expect(stitchSize({ size, advised })).toEqual({ width: 112, height: 84, uncertaintyUm: 3_175, isEstimated: true })
    expect(stitchSize({ size, advised: null })).toBeNull()
  })

  it('is null when nothing is known', () => {
    expect(stitchSize({ size: { kind: 'unknown' }, advised })).toBeNull()
  })
})
