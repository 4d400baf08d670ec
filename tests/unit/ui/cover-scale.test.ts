import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { coverBarBox, coverScale, listScaleMarks } from '../../../app/_trade/cover-scale'

describe('coverScale', () => {
  it('goes a quarter beyond the longest need and ends on a mark', () => {
    expect(coverScale([7.2, 1.2, 13.2])).toEqual({ full: 20, step: 5 })
    expect(coverScale([8])).toEqual({ full: 10, step: 2 })
  })

  it('has a scale even where nothing is needed', () => {
    expect(coverScale([]).full).toBeGreaterThan(0)
    expect(coverScale([0, 0]).full).toBeGreaterThan(0)
  })

  it('holds every need and has two to six steps, whatever the needs', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0.01, max: 1e6, noNaN: true }), { minLength: 1, maxLength: 30 }), (needs) => {
        const scale = coverScale(needs)
        const steps = listScaleMarks(scale).length - 1
        return scale.full >= Math.max(...needs) && steps >= 2 && steps <= 6
      }),
      { seed: 20260907, numRuns: 200 },
    )
  })

  it('refuses a need that is not a length', () => {
    expect(() => coverScale([1, Number.NaN])).toThrow(RangeError)
    expect(() => coverScale([-1])).toThrow(RangeError)
  })
})

describe('listScaleMarks', () => {
  it('counts up from 0 without rounding dust', () => {
    expect(listScaleMarks({ full: 0.6, step: 0.2 })).toEqual([0, 0.2, 0.4, 0.6])
  })
})

describe('coverBarBox', () => {
  const scale = { full: 20, step: 5 }

  it('shows what is wanting between what is free and where the need ends', () => {
    expect(coverBarBox({ need: 16, free: 8 }, scale, 200)).toEqual({
      need: 160,
      free: 80,
      wanting: { from: 80, to: 160 },
      runsOn: false,
    })
  })

  it('wants nothing when what is free is exactly the need', () => {
    expect(coverBarBox({ need: 8, free: 8 }, scale, 200).wanting).toBeNull()
  })

  it('breaks off what runs on beyond the scale', () => {
    expect(coverBarBox({ need: 2, free: 50 }, scale, 200)).toMatchObject({ free: 200, runsOn: true, wanting: null })
  })
})
