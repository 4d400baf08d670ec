import { expect, it } from 'vitest'
import type { Batch, StockPromise } from '#lib/stock/batch'
import { sparePutUps } from '#lib/stock/spare-put-ups'

const batch = (wholePutUps: number, change: Partial<Batch> = {}): Batch => ({
  ...{ id: `b${wholePutUps}`, threadId: 't', ownerId: 'o', lot: null, putUpWord: null, putUpStrandTenths: 480_000, wholePutUps },
  ...{ partStrandTenths: 0, partCertainty: 'none', homePlaceId: 'h', currentPlaceId: 'h' },
  ...change,
})
const promise = (batchId: string, putUps: number): StockPromise => ({
  ...{ id: 'p', projectId: 'j', batchId, strandTenths: putUps * 480_000 },
})

it('can do without what is free beyond what is kept', () => {
  expect(sparePutUps([batch(5), batch(2)], [], 3)).toBe(4)
  expect(sparePutUps([batch(3)], [], 3)).toBe(0)
  expect(sparePutUps([batch(1)], [], 3)).toBe(0)
})

it('counts neither what is promised, nor what is out, nor a part', () => {
  expect(sparePutUps([batch(5)], [promise('b5', 2)], 1)).toBe(2)
  expect(sparePutUps([batch(5, { currentPlaceId: 'bag' }), batch(2)], [], 1)).toBe(1)
  expect(sparePutUps([batch(2, { partStrandTenths: 470_000, partCertainty: 'measured' })], [], 1)).toBe(1)
})

it('keeps what is promised beyond the stock', () => {
  expect(sparePutUps([batch(5), batch(1)], [promise('b1', 3)], 0)).toBe(3)
})

it('refuses to keep less than nothing', () => {
  expect(() => sparePutUps([], [], -1)).toThrow(RangeError)
})
