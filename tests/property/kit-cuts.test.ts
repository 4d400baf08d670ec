import fc from 'fast-check'
import { expect, it } from 'vitest'
import { kitsFrom, kitsPromised, leastUsefulPart, lengthForKits } from '#lib/coverage/kit-cuts'
import type { Batch } from '#lib/stock/batch'
import { pullOf } from '#lib/stock/part-off'

const settings = { seed: 20260907, numRuns: 400 }

const stock = fc.record({
  putUpStrandTenths: fc.integer({ min: 4, max: 30 }),
  wholePutUps: fc.integer({ min: 0, max: 6 }),
  partStrandTenths: fc.integer({ min: 0, max: 29 }),
})
type Stock = typeof stock extends fc.Arbitrary<infer T> ? T : never

/** How many kits come out of these pieces, the slow obvious way: cut one kit after another, a cut longer than a put-up from whole ones. */
function kitsByCutting({ putUpStrandTenths, wholePutUps, partStrandTenths }: Stock, cut: number): number {
  const opened = partStrandTenths > 0 ? [partStrandTenths] : []
  let whole = wholePutUps
  for (let kits = 0; ; kits++) {
    let rest = cut
    while (rest > putUpStrandTenths) {
      if (whole === 0) return kits
      whole--
      rest -= putUpStrandTenths
    }
    let at = opened.findIndex((piece) => piece >= rest)
    if (at < 0) {
      if (whole === 0) return kits
      whole--
      at = opened.push(putUpStrandTenths) - 1
    }
    opened[at] = (opened[at] as number) - rest
  }
}

it('as many kits as cutting one after another gives', () => {
  fc.assert(
    fc.property(stock, fc.integer({ min: 1, max: 70 }), (pieces, cut) => {
      expect(kitsFrom(pieces, cut)).toBe(kitsByCutting(pieces, cut))
    }),
    settings,
  )
})

it('what is promised for so many kits is there, serves just so many, and what is lifted out for it can be cut into them', () => {
  fc.assert(
    fc.property(stock, fc.integer({ min: 1, max: 70 }), fc.nat(40), (pieces, cut, some) => {
      const kits = some % (kitsFrom(pieces, cut) + 1)
      const promised = lengthForKits(pieces, cut, kits)
      expect(promised).toBeLessThanOrEqual(pieces.wholePutUps * pieces.putUpStrandTenths + pieces.partStrandTenths)
      expect(promised).toBeGreaterThanOrEqual(kits * cut)
      expect(kitsPromised(pieces, cut, promised)).toBe(kits)
      const batch = { ...pieces, partCertainty: pieces.partStrandTenths > 0 ? 'measured' : 'none' } as Batch
      const pulled = pullOf(batch, promised, leastUsefulPart(cut, pieces.putUpStrandTenths))
      const partStrandTenths = pulled.takesPart ? pieces.partStrandTenths : 0
      expect(pulled.wholePutUps).toBeLessThanOrEqual(pieces.wholePutUps)
      expect(kitsByCutting({ ...pieces, wholePutUps: pulled.wholePutUps, partStrandTenths }, cut)).toBeGreaterThanOrEqual(kits)
    }),
    settings,
  )
})
