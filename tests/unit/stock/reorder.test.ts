import { describe, expect, it } from 'vitest'
import { type ChosenRule, checkReorder, chooseRule, type PutUpStock, reorderPoint, stockInPutUps } from '#lib/stock/reorder'
import { aBatch, aPromise, skein } from './batches'

const held = (freePutUps: number, more: Partial<PutUpStock> = {}): PutUpStock => ({
  ownedPutUps: freePutUps,
  outPutUps: 0,
  promisedPutUps: 0,
  freePutUps,
  unmetPutUps: 0,
  ...more,
})
const keep = (minimumPutUps: number, packPutUps = 1): ChosenRule => ({
  rule: { kind: 'minimum', minimumPutUps, packPutUps },
  source: 'owner',
})

describe('chooseRule', () => {
  const nothing = { own: null, threadMinimumPutUps: null, lotsMatter: false, usesDefault: true }

  it("takes the owner's own rule before the thread's minimum", () => {
    const own = keep(5).rule
    expect(chooseRule({ ...nothing, own, threadMinimumPutUps: 3 })).toEqual({ rule: own, source: 'owner' })
    expect(chooseRule({ ...nothing, threadMinimumPutUps: 3 })).toMatchObject({ rule: { minimumPutUps: 3 }, source: 'thread' })
  })

  it('keeps two of a thread whose lots matter, where that is asked for and nothing else is said', () => {
    expect(chooseRule({ ...nothing, lotsMatter: true })).toMatchObject({ rule: { minimumPutUps: 2 }, source: 'lots' })
    expect(chooseRule({ ...nothing, lotsMatter: true, usesDefault: false })).toBeNull()
    expect(chooseRule(nothing)).toBeNull()
  })
})

describe('stockInPutUps', () => {
  it('counts what is out and what is promised apart from what is free, and no parts', () => {
    const batches = [
      aBatch({ id: 'b1', wholePutUps: 3, partStrandTenths: skein / 2, partCertainty: 'measured' }),
      aBatch({ id: 'b2', wholePutUps: 2, currentPlaceId: 'K-07' }),
    ]
    const promises = [aPromise({ batchId: 'b1', strandTenths: skein })]
    expect(stockInPutUps(batches, promises)).toEqual({
      ownedPutUps: 5,
      outPutUps: 2,
      promisedPutUps: 1,
      freePutUps: 2,
      unmetPutUps: 0,
    })
  })

  it('says what was promised beyond the stock', () => {
    const stock = stockInPutUps([aBatch({ wholePutUps: 1 })], [aPromise({ strandTenths: 2.5 * skein })])
    expect(stock).toMatchObject({ freePutUps: 0, unmetPutUps: 2 })
  })
})

describe('checkReorder', () => {
  it('is due below a minimum, not at it', () => {
    expect(checkReorder({ chosen: keep(2), stock: held(2), onOrderPutUps: 0 })).toMatchObject({ isDue: false, orderPutUps: 0 })
    expect(checkReorder({ chosen: keep(2), stock: held(1), onOrderPutUps: 0 })).toMatchObject({ isDue: true, orderPutUps: 1 })
  })

  it('is due at a reorder point, not only below it', () => {
    const rule = {
      kind: 'point',
      demandHundredths: 100,
      spreadHundredths: 0,
      leadWeeks: 4,
      coverWeeks: 2,
      packPutUps: 1,
    } as const
    const chosen = { rule, source: 'owner' } as const
    expect(checkReorder({ chosen, stock: held(4), onOrderPutUps: 0 })).toMatchObject({
      thresholdPutUps: 4,
      isDue: true,
      orderPutUps: 2,
    })
    expect(checkReorder({ chosen, stock: held(5), onOrderPutUps: 0 })).toMatchObject({ isDue: false, packs: 0 })
  })

  it('counts what is on order as if it were here', () => {
    expect(checkReorder({ chosen: keep(5), stock: held(1), onOrderPutUps: 4 }).isDue).toBe(false)
    expect(checkReorder({ chosen: keep(5), stock: held(1), onOrderPutUps: 2 })).toMatchObject({
      positionPutUps: 3,
      orderPutUps: 2,
    })
  })

  it('buys what was promised beyond the stock as well', () => {
    const stock = held(0, { ownedPutUps: 1, promisedPutUps: 1, unmetPutUps: 2 })
    expect(checkReorder({ chosen: keep(2), stock, onOrderPutUps: 0 })).toMatchObject({ positionPutUps: -2, orderPutUps: 4 })
  })

  it('rounds up to whole packs, and orders at least one pack of what is due', () => {
    expect(checkReorder({ chosen: keep(3, 6), stock: held(2), onOrderPutUps: 0 })).toMatchObject({ packs: 1, orderPutUps: 6 })
    const rule = { kind: 'point', demandHundredths: 0, spreadHundredths: 0, leadWeeks: 3, coverWeeks: 4, packPutUps: 12 } as const
    const nothingSold = checkReorder({ chosen: { rule, source: 'owner' }, stock: held(0), onOrderPutUps: 0 })
    expect(nothingSold).toMatchObject({ isDue: true, wantedPutUps: 0, packs: 1 })
  })

  it('marks the usual minimum as assumed', () => {
    const chosen: ChosenRule = { ...keep(2), source: 'lots' }
    expect(checkReorder({ chosen, stock: held(0), onOrderPutUps: 0 }).certainty).toBe('assumed')
    expect(checkReorder({ chosen: keep(2), stock: held(0), onOrderPutUps: 0 }).certainty).toBe('label')
  })

  it('refuses figures that cannot be', () => {
    expect(() => checkReorder({ chosen: keep(2, 0), stock: held(0), onOrderPutUps: 0 })).toThrow(RangeError)
    expect(() => reorderPoint({ demandHundredths: -1, spreadHundredths: 0, leadWeeks: 1 })).toThrow(RangeError)
  })
})
