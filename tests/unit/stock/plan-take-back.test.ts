import { describe, expect, it } from 'vitest'
import type { Batch } from '#lib/stock/batch'
import { planTakeBack } from '#lib/stock/plan-take-back'

const skein = 480_000
const aBatch = (over: Partial<Batch> = {}): Batch => ({
  id: 'b1',
  threadId: 't1',
  ownerId: 'shop',
  lot: null,
  putUpWord: null,
  putUpStrandTenths: skein,
  wholePutUps: 3,
  partStrandTenths: 0,
  partCertainty: 'none',
  homePlaceId: 'T2.1',
  currentPlaceId: 'T2.1',
  ...over,
})

describe('planTakeBack', () => {
  it('takes the put-ups off again, with a line of the journal that says so', () => {
    expect(planTakeBack(aBatch(), { wholePutUps: 2, isAlone: false, promises: [] })).toMatchObject({
      ok: true,
      value: {
        batches: [{ id: 'b1', wholePutUps: 1, isGone: false }],
        movements: [{ kind: 'undo', wholeDelta: -2, fromPlaceId: 'T2.1' }],
      },
    })
  })

  it('takes a batch away that came with them alone, but not one of which a part is left', () => {
    const all = { wholePutUps: 3, isAlone: true, promises: [] }
    expect(planTakeBack(aBatch(), all)).toMatchObject({ value: { batches: [{ isGone: true }] } })
    const parted = aBatch({ partStrandTenths: 1_000, partCertainty: 'guess' })
    expect(planTakeBack(parted, all)).toMatchObject({ value: { batches: [{ isGone: false, wholePutUps: 0 }] } })
  })

  it('leaves alone what was used or promised since', () => {
    expect(planTakeBack(aBatch({ wholePutUps: 1 }), { wholePutUps: 2, isAlone: false, promises: [] })).toMatchObject({
      error: { kind: 'used-since', wholePutUps: 1, receivedPutUps: 2 },
    })
    const promises = [{ id: 'p', batchId: 'b1', projectId: 'k', strandTenths: 2 * skein }]
    expect(planTakeBack(aBatch(), { wholePutUps: 1, isAlone: false, promises })).toMatchObject({ ok: true })
    expect(planTakeBack(aBatch(), { wholePutUps: 2, isAlone: false, promises })).toMatchObject({
      error: { kind: 'promised-since', projectIds: ['k'] },
    })
  })
})
