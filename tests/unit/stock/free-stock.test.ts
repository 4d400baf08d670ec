import { describe, expect, it } from 'vitest'
import type { Batch, StockPromise } from '#lib/stock/batch'
import { freeStock, freeStockByThread } from '#lib/stock/free-stock'
import { aBatch, aPromise, skein } from './batches'

const free = (batches: Batch[], promises: StockPromise[] = [], forProjectId: string | null = null) =>
  freeStock({ threadId: 'larkholm 0311', batches, promises, forProjectId, ownerIds: ['shop'] })

describe('free stock of a thread', () => {
  it('is owned less promised, when all is at home', () => {
    expect(free([aBatch()], [aPromise()])).toMatchObject({
      ownedStrandTenths: 2 * skein,
      outStrandTenths: 0,
      promisedStrandTenths: skein,
      freeStrandTenths: skein,
      elsewhere: [{ batchId: 'b1', placeId: 'T2.1-14', projectId: 'rooks', strandTenths: skein, why: 'promised' }],
    })
  })

  it('takes a skein off once when it is both promised and out', () => {
    const found = free([aBatch(), aBatch({ id: 'b2', wholePutUps: 1, currentPlaceId: 'K-07' })], [aPromise({ batchId: 'b2' })])
    expect(found).toMatchObject({
      ownedStrandTenths: 3 * skein,
      outStrandTenths: skein,
      promisedStrandTenths: 0,
      freeStrandTenths: 2 * skein,
      elsewhere: [{ batchId: 'b2', placeId: 'K-07', projectId: 'rooks', strandTenths: skein, why: 'out' }],
    })
  })

  it('counts for a project what it was promised, at home or in its bag', () => {
    const batches = [aBatch({ wholePutUps: 1 }), aBatch({ id: 'b2', wholePutUps: 1, currentPlaceId: 'K-07' })]
    const promises = [aPromise(), aPromise({ id: 'p2', batchId: 'b2' })]
    expect(free(batches, promises, 'rooks').freeStrandTenths).toBe(2 * skein)
    expect(free(batches, promises, 'lanterns').freeStrandTenths).toBe(0)
  })

  it('never goes below nought when more was promised than is there', () => {
    const found = free([aBatch({ wholePutUps: 0, partStrandTenths: 100_000, partCertainty: 'guess' })], [aPromise()])
    expect(found).toMatchObject({ promisedStrandTenths: 100_000, freeStrandTenths: 0 })
  })

  it('holds "some" without a length, and says where some is that is out', () => {
    const some = { wholePutUps: 0, partCertainty: 'some' as const }
    expect(free([aBatch(some)])).toMatchObject({ isSomeHeld: true, ownedStrandTenths: 0, lots: [] })
    const out = free([aBatch({ ...some, currentPlaceId: 'K-07' })])
    expect(out).toMatchObject({ isSomeHeld: false, elsewhere: [{ placeId: 'K-07', strandTenths: 0, why: 'out' }] })
  })

  it('counts a guess and marks the whole as one', () => {
    const found = free([aBatch(), aBatch({ id: 'b2', wholePutUps: 0, partStrandTenths: 240_000, partCertainty: 'guess' })])
    expect(found).toMatchObject({ freeStrandTenths: 2.5 * skein, certainty: 'guess' })
  })

  it('adds up a lot over drawers, and keeps unmarked batches apart', () => {
    const found = free([
      aBatch({ id: 'b1', lot: '18', wholePutUps: 1 }),
      aBatch({ id: 'b2', lot: '18', wholePutUps: 1, homePlaceId: 'T9', currentPlaceId: 'T9' }),
      aBatch({ id: 'b3', wholePutUps: 1 }),
      aBatch({ id: 'b4', wholePutUps: 1 }),
    ])
    expect(found.lots.map((lot) => [lot.lot, lot.freeStrandTenths, lot.batchIds])).toEqual([
      ['18', 2 * skein, ['b1', 'b2']],
      [null, skein, ['b3']],
      [null, skein, ['b4']],
    ])
  })

  it('passes over other owners', () => {
    expect(free([aBatch({ ownerId: 'Hanne Drewitt' })]).ownedStrandTenths).toBe(0)
  })

  it('refuses batches of another thread, and sorts a mixed pile by thread', () => {
    const other = aBatch({ id: 'b2', threadId: 'larkholm 0742' })
    expect(() => free([aBatch(), other])).toThrow(RangeError)
    const byThread = freeStockByThread({ batches: [aBatch(), other], promises: [aPromise()], ownerIds: ['shop'] })
    expect(byThread.get('larkholm 0311')?.freeStrandTenths).toBe(skein)
    expect(byThread.get('larkholm 0742')?.freeStrandTenths).toBe(2 * skein)
  })
})
