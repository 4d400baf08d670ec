import { describe, expect, it } from 'vitest'
import type { Batch, StockPromise } from '#lib/stock/batch'
import { findBrokenPromises } from '#lib/stock/broken-promises'
import { freeStock } from '#lib/stock/free-stock'
import { planMissing } from '#lib/stock/missing'
import { type Clue, rankClues } from '#lib/stock/missing-clues'

const skein = 480_000

const aBatch = (change: Partial<Batch> = {}): Batch => ({
  ...{ id: 'b1', threadId: '0311', ownerId: 'shop', lot: null, putUpWord: null, putUpStrandTenths: skein },
  ...{ wholePutUps: 3, partStrandTenths: 0, partCertainty: 'none', homePlaceId: 'T2.2-05', currentPlaceId: 'T2.2-05' },
  ...change,
})
const promise = (strandTenths: number, projectId = 'kettle'): StockPromise => ({
  id: projectId,
  batchId: 'b1',
  projectId,
  strandTenths,
})
const some = { wholePutUps: 1, takesPart: false, toPlaceId: 'not found', newBatchId: 'm1' }

function granted(result: ReturnType<typeof planMissing>) {
  if (!result.ok) throw new Error(result.error.kind)
  return result.value
}

describe('planMissing', () => {
  it('parts off what is missing: out, not free, its home kept', () => {
    const { change, missingBatchId } = granted(planMissing(aBatch(), some))
    expect(missingBatchId).toBe('m1')
    expect(change.batches).toMatchObject([
      { id: 'b1', wholePutUps: 2, currentPlaceId: 'T2.2-05' },
      { id: 'm1', wholePutUps: 1, homePlaceId: 'T2.2-05', currentPlaceId: 'not found', isNew: true },
    ])
    const free = freeStock({ threadId: '0311', batches: change.batches, promises: [], ownerIds: ['shop'] })
    expect([free.ownedStrandTenths, free.outStrandTenths, free.freeStrandTenths]).toEqual([3 * skein, skein, 2 * skein])
  })

  it('leaves a promise on what is there, where it is seen to be broken', () => {
    const promises = [promise(3 * skein)]
    const { change } = granted(planMissing(aBatch(), { ...some, promises }))
    expect(change.promises).toEqual([])
    const projects = [{ id: 'kettle', ownerId: 'shop', placeId: null }]
    expect(findBrokenPromises({ batches: change.batches, promises, projects })).toMatchObject([
      { batchId: 'b1', supportedStrandTenths: 2 * skein, why: 'not-enough' },
    ])
  })

  it('keeps an empty row for the promises when all of a batch is missing, and none where nothing is promised', () => {
    const all = { ...some, wholePutUps: 3 }
    const moved = granted(planMissing(aBatch(), all))
    expect([moved.missingBatchId, moved.change.batches]).toMatchObject(['b1', [{ id: 'b1', currentPlaceId: 'not found' }]])
    const promised = granted(planMissing(aBatch(), { ...all, promises: [promise(skein)] }))
    expect(promised.change.batches).toMatchObject([
      { id: 'b1', wholePutUps: 0, currentPlaceId: 'T2.2-05' },
      { id: 'm1', wholePutUps: 3, currentPlaceId: 'not found' },
    ])
    expect(promised.change.movements.map(({ wholeDelta }) => wholeDelta)).toEqual([-3, 3])
  })

  it('leaves what was in a bag out, last seen there, and frees what was promised of it', () => {
    const inBag = aBatch({ currentPlaceId: 'K-07' })
    const whole = granted(planMissing(inBag, { ...some, wholePutUps: 3, toPlaceId: null, promises: [promise(skein)] }))
    expect(whole).toEqual({
      missingBatchId: 'b1',
      change: { batches: [], movements: [], promises: [{ batchId: 'b1', projectId: 'kettle', strandTenths: 0 }] },
    })
    const part = granted(planMissing(inBag, { ...some, toPlaceId: null }))
    expect(part.change.batches).toMatchObject([
      { id: 'b1', wholePutUps: 2, currentPlaceId: 'K-07' },
      { id: 'm1', wholePutUps: 1, currentPlaceId: 'K-07', homePlaceId: 'T2.2-05' },
    ])
  })

  it('takes the place where a thing without a home lay for its home, so that it does not count as free', () => {
    const { change } = granted(planMissing(aBatch({ homePlaceId: null }), some))
    expect(change.batches.map(({ homePlaceId }) => homePlaceId)).toEqual(['T2.2-05', 'T2.2-05'])
  })

  it('refuses more than there is, nothing at all, and what lies nowhere or would stay at home', () => {
    const refusal = (batch: Batch, missing: Partial<typeof some> | { toPlaceId: null }) => {
      const planned = planMissing(batch, { ...some, ...missing })
      return planned.ok ? null : planned.error.kind
    }
    expect(refusal(aBatch(), { wholePutUps: 4 })).toBe('not-enough')
    expect(refusal(aBatch(), { takesPart: true })).toBe('not-enough')
    expect(refusal(aBatch(), { wholePutUps: 0 })).toBe('nothing-parted')
    expect(refusal(aBatch({ homePlaceId: null, currentPlaceId: null }), {})).toBe('no-place')
    expect(refusal(aBatch(), { toPlaceId: null })).toBe('no-place')
  })
})

describe('rankClues', () => {
  const clue = (placeId: string, kind: Clue['kind'], day = 1): Clue => ({
    ...{ placeId, kind, text: null, at: new Date(Date.UTC(2026, 0, day)) },
  })

  it('names the likeliest place first, and none that was looked in', () => {
    const clues = [clue('old', 'lived-there'), clue('K-07', 'more-out'), clue('T2.2-06', 'next-to'), clue('T2.3', 'counted-over')]
    expect(rankClues(clues, new Set(['K-07'])).map(({ placeId }) => placeId)).toEqual(['T2.3', 'T2.2-06', 'old'])
  })

  it('lets several reasons for one place outweigh one of the same kind, and says each once', () => {
    const clues = [clue('a', 'was-there', 9), clue('b', 'was-there', 1), clue('b', 'more-home'), clue('b', 'was-there', 1)]
    expect(rankClues(clues, new Set()).map(({ placeId, clues: why }) => [placeId, why.length])).toEqual([
      ['b', 2],
      ['a', 1],
    ])
  })
})
