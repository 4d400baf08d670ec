import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { countByRuler, parseReadings, type RulerReading, readingsText } from '#lib/cloth/ruler-count'
import { UM_PER_INCH } from '#lib/quantity/cloth-length'
import { perInch, sameCount } from '#lib/quantity/count'

const settings = { seed: 20261201, numRuns: 300 }

const reading: fc.Arbitrary<RulerReading> = fc.record({
  threads: fc.integer({ min: 40, max: 200 }).map((halves) => halves / 2),
  lengthUm: fc.oneof(fc.constantFrom(UM_PER_INCH, 2 * UM_PER_INCH, 50_000), fc.integer({ min: 20_000, max: 100_000 })),
})
const way = fc.array(reading, { minLength: 1, maxLength: 8 })
const unit = fc.constantFrom('in' as const, 'cm' as const)

const count = (across: RulerReading[], up: RulerReading[], ruler: 'in' | 'cm') => {
  const result = countByRuler({ across, up }, { weave: 'single', unit: ruler })
  if (!result.ok) throw new Error(result.error.kind)
  return result.value
}

describe('a count along a ruler', () => {
  it('is exactly what was counted over what was ruled, in whole numbers a database holds', () => {
    fc.assert(
      fc.property(way, way, unit, (across, up, ruler) => {
        const { ends } = count(across, up, ruler)
        const threads = across.reduce((sum, each) => sum + each.threads, 0)
        const lengthUm = across.reduce((sum, each) => sum + each.lengthUm, 0)
        expect(BigInt(ends.count.threads) * BigInt(lengthUm * 2)).toBe(BigInt(threads * 2) * BigInt(ends.count.perUm))
        expect(ends.count.perUm).toBeLessThan(2 ** 31)
        expect(Number.isSafeInteger(ends.count.threads)).toBe(true)
      }),
      settings,
    )
  })

  it('lies between its lowest and its highest reading, and its order makes no difference', () => {
    fc.assert(
      fc.property(way, way, unit, (across, up, ruler) => {
        const { ends, ...rest } = count(across, up, ruler)
        expect(perInch(ends.count)).toBeGreaterThanOrEqual(ends.leastPerInch - 1e-9)
        expect(perInch(ends.count)).toBeLessThanOrEqual(ends.mostPerInch + 1e-9)
        const back = count(across.toReversed(), up.toReversed(), ruler)
        expect(back.ends).toEqual({ ...ends, readings: ends.readings.toReversed() })
        expect(back.squareness).toBe(rest.squareness)
      }),
      settings,
    )
  })

  it('turned, has the two ways changed about and nothing else', () => {
    fc.assert(
      fc.property(way, way, unit, (across, up, ruler) => {
        const [upright, turned] = [count(across, up, ruler), count(up, across, ruler)]
        expect(sameCount(upright.ends.count, turned.picks.count)).toBe(true)
        expect(turned).toEqual({ ...upright, ends: upright.picks, picks: upright.ends })
      }),
      settings,
    )
  })

  it('goes through an address whole', () => {
    fc.assert(
      fc.property(way, (readings) => {
        expect(parseReadings(readingsText(readings))).toEqual(readings)
      }),
      settings,
    )
  })
})
