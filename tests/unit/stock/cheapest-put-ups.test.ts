import fc from 'fast-check'
import { expect, it } from 'vitest'
import { cheapestPutUps } from '#lib/stock/cheapest-put-ups'

const fiveYards = { putUpStrandTenths: 5 * 9_144 * 6, priceMinor: 260 }
const eightMetres = { putUpStrandTenths: 480_000, priceMinor: 150 }

it('answers two of 5 yd or one of 8 m', () => {
  // 7 m: two of 4.572 m at 2.60 are 5.20, one of 8 m is 1.50.
  const { singles, best } = cheapestPutUps(420_000, [fiveYards, eightMetres])
  expect(singles).toEqual([
    { putUps: [2, 0], strandTenths: 2 * fiveYards.putUpStrandTenths, priceMinor: 520 },
    { putUps: [0, 1], strandTenths: 480_000, priceMinor: 150 },
  ])
  expect(best).toEqual(singles[1])
})

it('mixes lengths when that costs less', () => {
  // 12 m: two of 8 m are 3.00; one of each hold 12.572 m and cost 1.50 + 0.90.
  const { best } = cheapestPutUps(720_000, [{ ...fiveYards, priceMinor: 90 }, eightMetres])
  expect(best).toMatchObject({ putUps: [1, 1], priceMinor: 240 })
})

it('takes the longer of two that cost the same', () => {
  expect(
    cheapestPutUps(100, [
      { putUpStrandTenths: 100, priceMinor: 5 },
      { putUpStrandTenths: 200, priceMinor: 5 },
    ]).best,
  ).toEqual({
    putUps: [0, 1],
    strandTenths: 200,
    priceMinor: 5,
  })
})

it('finds what trying every count finds', () => {
  const offer = fc.record({ putUpStrandTenths: fc.integer({ min: 3, max: 30 }), priceMinor: fc.integer({ min: 0, max: 20 }) })
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 60 }), fc.tuple(offer, offer, offer), (need, offers) => {
      let cheapest = Number.POSITIVE_INFINITY
      for (let a = 0; a <= 20; a++)
        for (let b = 0; b <= 20; b++)
          for (let c = 0; c <= 20; c++) {
            const length = a * offers[0].putUpStrandTenths + b * offers[1].putUpStrandTenths + c * offers[2].putUpStrandTenths
            const price = a * offers[0].priceMinor + b * offers[1].priceMinor + c * offers[2].priceMinor
            if (length >= need) cheapest = Math.min(cheapest, price)
          }
      const { best } = cheapestPutUps(need, offers)
      expect(best.priceMinor).toBe(cheapest)
      expect(best.strandTenths).toBeGreaterThanOrEqual(need)
    }),
    { seed: 20260907, numRuns: 60 },
  )
})

it('refuses what it cannot try out', () => {
  expect(() => cheapestPutUps(100, [])).toThrow(RangeError)
  expect(() => cheapestPutUps(0, [eightMetres])).toThrow(RangeError)
  expect(() => cheapestPutUps(1e9, [{ putUpStrandTenths: 1, priceMinor: 1 }])).toThrow(RangeError)
})
