import { describe, expect, it } from 'vitest'
import type { Batch, StockPromise } from '#lib/stock/batch'
import { findBrokenPromises } from '#lib/stock/broken-promises'
import { aBatch, aPromise, skein } from './batches'

const projects = ['rooks', 'lanterns', 'kettle'].map((id) => ({ id, ownerId: 'shop', placeId: id === 'kettle' ? 'K-07' : null }))
const find = (batches: Batch[], promises: StockPromise[]) =>
  findBrokenPromises({ batches, promises, projects }).map(({ promiseId, supportedStrandTenths, why }) => [
    promiseId,
    supportedStrandTenths / skein,
    why,
  ])

describe('promises that stock no longer supports', () => {
  it('are none while a batch holds all that was promised of it, at home or out', () => {
    const promises = [aPromise(), aPromise({ id: 'p2', projectId: 'lanterns' })]
    expect(find([aBatch()], promises)).toEqual([])
    expect(find([aBatch({ currentPlaceId: 'a friend' })], promises)).toEqual([])
  })

  it('hit the youngest, whatever the order of rows', () => {
    const promises = [aPromise({ id: 'p9' }), aPromise({ id: 'p2', projectId: 'lanterns' })]
    const batches = [aBatch({ wholePutUps: 1, partStrandTenths: 0.25 * skein, partCertainty: 'guess' })]
    expect(find(batches, promises)).toEqual([['p9', 0.25, 'not-enough']])
    expect(find(batches, [...promises].reverse())).toEqual([['p9', 0.25, 'not-enough']])
  })

  it('spare the project in whose bag the thread lies', () => {
    const promises = [aPromise({ id: 'p1' }), aPromise({ id: 'p2', projectId: 'kettle' })]
    expect(find([aBatch({ wholePutUps: 1, currentPlaceId: 'K-07' })], promises)).toEqual([['p1', 0, 'not-enough']])
  })

  it('count an amount nobody has judged as nothing', () => {
    expect(find([aBatch({ wholePutUps: 0, partCertainty: 'some' })], [aPromise()])).toEqual([['p1', 0, 'not-enough']])
  })

  it('are broken outright where the batch is gone or another’s, which leaves more to the rest', () => {
    expect(find([], [aPromise()])).toEqual([['p1', 0, 'gone']])
    const theirs = [{ id: 'rooks', ownerId: 'Hanne Drewitt', placeId: null }, ...projects.slice(1)]
    const promises = [aPromise(), aPromise({ id: 'p2', projectId: 'lanterns', strandTenths: 2 * skein })]
    expect(
      findBrokenPromises({ batches: [aBatch()], promises, projects: theirs }).map(({ promiseId, why }) => [promiseId, why]),
    ).toEqual([['p1', 'other-owner']])
  })

  it('pass over promises for projects nobody asks about', () => {
    expect(find([], [aPromise({ projectId: 'given up' })])).toEqual([])
  })
})
