import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  afterShopTick,
  boughtOf,
  packsOf,
  type ShopLine,
  type ShopTick,
  shopLineStatuses,
  shopProgress,
  shopSums,
} from '#lib/planning/buying/shop-list'

const untouched: ShopLine = {
  ...{ status: 'open', boughtPutUps: null, lot: null, paidMinor: null, insteadThreadId: null },
  ...{ tickedAtMs: null, tickedBy: null },
}
const tick = (change: Partial<ShopTick>): ShopTick => ({
  ...{ status: 'bought', boughtPutUps: null, lot: null, paidMinor: null, insteadThreadId: null },
  ...{ tickedAtMs: 1_000, by: null, ...change },
})
const wanted = { threadId: '0311', putUpWord: null, putUpStrandTenths: 480_000, putUps: 3 }

describe('a line of a list after ticks', () => {
  it('is as the later tick says, with its figures', () => {
    const bought = afterShopTick(untouched, tick({ boughtPutUps: 2, lot: '18', paidMinor: 300 }))
    expect(bought).toMatchObject({ status: 'bought', boughtPutUps: 2, lot: '18', paidMinor: 300 })
    expect(afterShopTick(bought, tick({ tickedAtMs: 999, boughtPutUps: 5 }))).toBe(bought)
    expect(afterShopTick(bought, tick({ tickedAtMs: 1_001, status: 'not there' }))).toMatchObject({
      ...{ status: 'not there', boughtPutUps: null, lot: null, paidMinor: null },
    })
  })

  it('is the same in whatever order ticks of different moments come, and however often', () => {
    const aTick = fc.record({
      status: fc.constantFrom(...shopLineStatuses),
      boughtPutUps: fc.option(fc.integer({ min: 0, max: 4 })),
      lot: fc.option(fc.constantFrom('18', '22')),
      paidMinor: fc.option(fc.integer({ min: 0, max: 9 })),
      insteadThreadId: fc.constant('0742'),
      by: fc.constantFrom('Hanne', 'Ines', null),
    })
    fc.assert(
      fc.property(fc.array(aTick, { maxLength: 6 }), fc.array(fc.nat(), { maxLength: 12 }), (said, picks) => {
        const ticks: ShopTick[] = said.map((one, at) => ({ ...one, tickedAtMs: at * 10 }))
        const inOrder = ticks.reduce(afterShopTick, untouched)
        const repeated = picks.flatMap((at) => (ticks.length > 0 ? [ticks[at % ticks.length] as ShopTick] : []))
        expect([...repeated, ...[...ticks].reverse(), ...repeated].reduce(afterShopTick, untouched)).toEqual(inOrder)
      }),
      { seed: 20261130, numRuns: 300 },
    )
  })
})

describe('what a line brings', () => {
  it('is as many as the list says, unless somebody says otherwise', () => {
    expect(boughtOf({ ...untouched, ...wanted, status: 'bought' })?.putUps).toBe(3)
    expect(boughtOf({ ...untouched, ...wanted, status: 'bought', boughtPutUps: 2 })?.putUps).toBe(2)
    expect(boughtOf({ ...untouched, ...wanted, status: 'bought', boughtPutUps: 0 })).toBeNull()
  })

  it('is nothing of what is open, not there, or no thread', () => {
    expect(boughtOf({ ...untouched, ...wanted })).toBeNull()
    expect(boughtOf({ ...untouched, ...wanted, status: 'not there' })).toBeNull()
    expect(boughtOf({ ...untouched, ...wanted, threadId: null, status: 'bought' })).toBeNull()
  })

  it('is the other thread, by its own put-up, where that was taken instead', () => {
    expect(boughtOf({ ...untouched, ...wanted, status: 'instead', insteadThreadId: '0742' })).toEqual({
      ...{ threadId: '0742', putUps: 3, putUpWord: null, putUpStrandTenths: null, lot: null },
    })
  })
})

it('sums what it was expected to cost, by whole packs, and what was paid', () => {
  // Two packs of six at 9.00, three skeins at 1.50, needles without a price: 22.50. Paid 8.40, and nothing said of the needles.
  const said = { status: 'open' as const, paidMinor: null, packPutUps: 1 }
  const lines = [
    { ...said, putUps: 12, packPutUps: 6, priceMinor: 900 },
    { ...said, putUps: 3, priceMinor: 150, status: 'bought' as const, paidMinor: 840 },
    { ...said, putUps: 1, priceMinor: null, status: 'instead' as const },
  ]
  expect(shopSums(lines)).toEqual({ expectedMinor: 2_250, unpriced: 1, paidMinor: 840, unpaid: 1 })
  expect(shopProgress(lines)).toEqual({ lines: 3, bought: 2, notThere: 0 })
  expect(packsOf({ putUps: 13, packPutUps: 6 })).toBe(3)
})
