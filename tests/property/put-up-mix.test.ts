import fc from 'fast-check'
import { expect, it } from 'vitest'
import { type Offer, planMix } from '#lib/coverage/put-up-mix'
import { type CoverItem, cheapestCover } from '#lib/stock/cheapest-cover'

type Sums = [costMinor: number, putUps: number, over: number, packs: number]

const compareSums = (a: Sums, b: Sums): number => a.map((figure, at) => figure - (b[at] as number)).find((by) => by !== 0) ?? 0

/** Every count of every item up to what it alone would take, one after another. */
function byTryingAll(need: number, items: readonly CoverItem[]): Sums {
  let best: Sums | null = null
  const go = (at: number, rest: number, [costMinor, putUps, , packs]: Sums): void => {
    const item = items[at]
    if (!item || rest <= 0) {
      const sums: Sums = [costMinor, putUps, Math.max(0, -rest), packs]
      if (rest <= 0 && (best === null || compareSums(sums, best) < 0)) best = sums
      return
    }
    for (let count = 0; count <= Math.ceil(rest / item.holds); count++)
      go(at + 1, rest - count * item.holds, [costMinor + count * item.costMinor, putUps + count * item.putUps, 0, packs + count])
  }
  go(0, need, [0, 0, 0, 0])
  return best as unknown as Sums
}

const anItem = fc.record({
  holds: fc.integer({ min: 3, max: 25 }),
  costMinor: fc.integer({ min: 0, max: 20 }),
  putUps: fc.integer({ min: 1, max: 4 }),
})

it('finds the cheapest that trying every count finds', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 70 }), fc.array(anItem, { minLength: 1, maxLength: 4 }), (need, items) => {
      const found = cheapestCover(need, items)
      const packs = found.counts.reduce((sum, count) => sum + count, 0)
      expect([found.costMinor, found.putUps, found.holds - need, packs]).toEqual(byTryingAll(need, items))
      expect(found.holds).toBe(items.reduce((sum, { holds }, at) => sum + holds * (found.counts[at] as number), 0))
    }),
    { seed: 20261130, numRuns: 1_500 },
  )
})

const anOffer = fc.record({
  putUpStrandTenths: fc.integer({ min: 3, max: 25 }),
  packPutUps: fc.integer({ min: 1, max: 3 }),
  priceMinor: fc.option(fc.integer({ min: 0, max: 20 })),
})

it('of one lot keeps to one offer, and the mix never costs more than any single offer', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 70 }), fc.array(anOffer, { minLength: 1, maxLength: 4 }), (short, some) => {
      const offers: Offer[] = some.map((offer, at) => ({ offerId: `${at}`, supplier: null, putUpWord: null, ...offer }))
      const about = { shortStrandTenths: short, cutStrandTenths: null, ownPutUpStrandTenths: 10, offers }
      const alone = planMix({ ...about, isOneLot: true })
      const mixed = planMix({ ...about, isOneLot: false })
      expect(alone?.parts).toHaveLength(1)
      if (offers.every(({ priceMinor }) => priceMinor !== null)) expect(mixed?.by).toBe('price')
      if (mixed?.by === 'price') expect(mixed.priceMinor as number).toBeLessThanOrEqual(alone?.priceMinor as number)
      else expect(mixed?.putUps as number).toBeLessThanOrEqual(alone?.putUps as number)
      for (const plan of [alone, mixed]) expect(plan?.strandTenths as number).toBeGreaterThanOrEqual(short)
    }),
    { seed: 20261130, numRuns: 500 },
  )
})

it('for kits buys enough for every cut, none of them joined', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 20 }),
      fc.integer({ min: 1, max: 12 }),
      fc.array(anOffer, { minLength: 1, maxLength: 4 }),
      (kits, cut, some) => {
        const own = 12
        const perPutUp = Math.floor(own / cut)
        const short = (Math.ceil(kits / perPutUp) - 1) * own + (kits - (Math.ceil(kits / perPutUp) - 1) * perPutUp) * cut
        const offers: Offer[] = some.map((offer, at) => ({ offerId: `${at}`, supplier: null, putUpWord: null, ...offer }))
        const mix = planMix({
          ...{ shortStrandTenths: short, isOneLot: false, cutStrandTenths: cut, ownPutUpStrandTenths: own, offers },
        })
        const cuts = mix?.parts.reduce(
          (sum, { offer, packs }) => sum + packs * offer.packPutUps * Math.floor(offer.putUpStrandTenths / cut),
          0,
        )
        if (mix === null) expect(offers.every(({ putUpStrandTenths }) => putUpStrandTenths < cut)).toBe(true)
        else expect(cuts).toBeGreaterThanOrEqual(kits)
      },
    ),
    { seed: 20261130, numRuns: 500 },
  )
})
