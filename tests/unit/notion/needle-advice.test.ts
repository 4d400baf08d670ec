import { describe, expect, it } from 'vitest'
import { advisedStitchesPerInch, adviseNeedle } from '#lib/notion/needle-advice'

const plain = { isBackstitch: false }

describe('which needle', () => {
  // As stitchers tell each other; published guides differ by one size.
  it.each([
    [11, 22, 24],
    [14, 24, 24],
    [16, 24, 26],
    [18, 26, 26],
    [20, 26, 28],
    [28, 28, 28],
  ])('for %i to the inch is %i to %i', (perInch, coarsest, finest) => {
    expect(adviseNeedle(perInch, plain)).toEqual({ coarsest, finest })
    expect(advisedStitchesPerInch).toContain(perInch)
  })

  it('takes the nearest row, of two as near the finer', () => {
    expect(adviseNeedle(12.5, plain)).toEqual({ coarsest: 24, finest: 24 })
    expect(adviseNeedle(15, plain)).toEqual({ coarsest: 24, finest: 26 })
    expect(adviseNeedle(23, plain)).toEqual({ coarsest: 26, finest: 28 })
    expect(adviseNeedle(40, plain)).toEqual({ coarsest: 28, finest: 28 })
  })

  it('takes one size finer for backstitch, and none finer than there is', () => {
    expect(adviseNeedle(14, { isBackstitch: true })).toEqual({ coarsest: 26, finest: 26 })
    expect(adviseNeedle(20, { isBackstitch: true })).toEqual({ coarsest: 28, finest: 28 })
  })

  it('says nothing of very coarse cloth, and refuses what is no count', () => {
    expect(adviseNeedle(6, plain)).toBeNull()
    expect(() => adviseNeedle(0, plain)).toThrow(RangeError)
    expect(() => adviseNeedle(Number.NaN, plain)).toThrow(RangeError)
  })
})
