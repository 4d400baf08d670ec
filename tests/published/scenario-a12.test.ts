import { expect, it } from 'vitest'
import { checkReorder, reorderPoint, stockInPutUps } from '#lib/stock/reorder'
import { aBatch, aPromise, skein } from '#tests/unit/stock/batches'

// Source: the project's trade notes, scenario A12 "Reorder", worked by hand. Larkholm 0311 counter sales 6 a week, spread 2.5, lead 3
// weeks, z 1.65: 18 + 1.65 x 2.5 x 1.732 = 18 + 7.14 = 25.14 -> reorder at 26. On hand 40, promised to class kits 15, on order 0 ->
// free 25 <= 26 -> order. Up to 26 + 4 weeks (24) = 50: want 25, boxes of 12 -> 3 boxes (36).

const rule = {
  kind: 'point',
  demandHundredths: 600,
  spreadHundredths: 250,
  leadWeeks: 3,
  coverWeeks: 4,
  packPutUps: 12,
} as const

it('reorders 0311 at 26', () => {
  const point = reorderPoint(rule)
  expect(point.leadPutUps).toBe(18)
  expect(point.safetyPutUps).toBeCloseTo(7.14, 2)
  expect(point.putUps).toBe(26)
})

it('orders 3 boxes, 36 skeins, with 40 on hand of which 15 are promised to kits', () => {
  const stock = stockInPutUps([aBatch({ wholePutUps: 40 })], [aPromise({ strandTenths: 15 * skein })])
  expect(stock).toEqual({ ownedPutUps: 40, outPutUps: 0, promisedPutUps: 15, freePutUps: 25, unmetPutUps: 0 })
  expect(checkReorder({ chosen: { rule, source: 'owner' }, stock, onOrderPutUps: 0 })).toMatchObject({
    thresholdPutUps: 26,
    positionPutUps: 25,
    isDue: true,
    upToPutUps: 50,
    wantedPutUps: 25,
    packs: 3,
    orderPutUps: 36,
    certainty: 'estimated',
  })
})
