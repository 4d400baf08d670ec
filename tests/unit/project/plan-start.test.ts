import { describe, expect, it } from 'vitest'
import { planPromises } from '#lib/project/plan-start'
import type { Batch, StockPromise } from '#lib/stock/batch'

const skein = 480_000

const aBatch = (id: string, change: Partial<Batch> = {}): Batch => ({
  id,
  threadId: '0311',
  ownerId: 'shop',
  lot: null,
  putUpWord: null,
  putUpStrandTenths: skein,
  wholePutUps: 1,
  partStrandTenths: 0,
  partCertainty: 'none',
  homePlaceId: 'drawer',
  currentPlaceId: 'drawer',
  ...change,
})
const plan = (putUps: number, batches: Batch[], options: { lotsMatter?: boolean; promises?: StockPromise[] } = {}) =>
  planPromises({
    needs: [{ threadId: '0311', strandTenths: putUps * skein }],
    batches,
    promises: options.promises ?? [],
    lines: new Map([['0311', { lotsMatter: options.lotsMatter ?? false }]]),
    projectId: 'rooks',
    ownerIds: ['shop'],
  })
const promised = (putUps: number, batches: Batch[], options?: Parameters<typeof plan>[2]) =>
  plan(putUps, batches, options).promises.map((promise) => [promise.batchId, promise.strandTenths / skein])

describe('setting stock aside for a project', () => {
  it('takes the smallest single lot that is enough', () => {
    const lots = [
      aBatch('a', { lot: '18', wholePutUps: 5 }),
      aBatch('b', { lot: '22', wholePutUps: 2 }),
      aBatch('c', { lot: '23', wholePutUps: 1 }),
    ]
    expect(promised(2, lots, { lotsMatter: true })).toEqual([['b', 2]])
    expect(promised(2, [...lots].reverse(), { lotsMatter: true })).toEqual([['b', 2]])
  })

  it('takes part skeins before whole ones', () => {
    const batches = [
      aBatch('whole', { lot: '18', wholePutUps: 2 }),
      aBatch('part', { lot: '18', wholePutUps: 0, partStrandTenths: 0.25 * skein, partCertainty: 'measured' }),
    ]
    expect(promised(1, batches)).toEqual([
      ['part', 0.25],
      ['whole', 0.75],
    ])
  })

  it('mixes lots of a solid, largest first, but never where lots matter', () => {
    const lots = [aBatch('a', { lot: '18' }), aBatch('b', { lot: '22', wholePutUps: 2 })]
    expect(promised(3, lots)).toEqual([
      ['b', 2],
      ['a', 1],
    ])
    expect(plan(3, lots, { lotsMatter: true })).toEqual({
      promises: [{ batchId: 'b', projectId: 'rooks', strandTenths: 2 * skein }],
      short: [{ threadId: '0311', shortStrandTenths: skein }],
    })
  })

  it('leaves alone what others were promised or have out', () => {
    const batches = [aBatch('a', { wholePutUps: 2 }), aBatch('b', { currentPlaceId: 'K-07' })]
    const promises = [{ id: 'p', batchId: 'a', projectId: 'lanterns', strandTenths: skein }]
    expect(plan(2, batches, { promises })).toEqual({
      promises: [{ batchId: 'a', projectId: 'rooks', strandTenths: skein }],
      short: [{ threadId: '0311', shortStrandTenths: skein }],
    })
  })

  it("replaces the project's earlier promises", () => {
    const batches = [aBatch('a', { lot: '18', wholePutUps: 3 }), aBatch('b', { lot: '22' })]
    const promises = [{ id: 'p', batchId: 'a', projectId: 'rooks', strandTenths: 3 * skein }]
    expect(promised(1, batches, { promises })).toEqual([
      ['b', 1],
      ['a', 0],
    ])
  })

  it('refuses a thread whose line is not known', () => {
    expect(() =>
      planPromises({
        needs: [{ threadId: 'x', strandTenths: 1 }],
        batches: [],
        promises: [],
        lines: new Map(),
        projectId: 'p',
        ownerIds: [],
      }),
    ).toThrow(RangeError)
  })

  it('promises nothing to kits that have their cut already', () => {
    const of = (cutCopies?: ReadonlyMap<string, number>) =>
      planPromises({
        // Thirteen cuts of half a skein, two to a skein.
        ...{ needs: [{ threadId: '0311', strandTenths: 13 * (skein / 2) }], batches: [aBatch('a', { wholePutUps: 9 })] },
        ...{ promises: [], lines: new Map([['0311', { lotsMatter: false }]]), projectId: 'lanterns', ownerIds: ['shop'] },
        ...{ copies: 13, cutCopies },
      }).promises.map(({ strandTenths }) => strandTenths / skein)
    expect(of()).toEqual([6.5])
    expect(of(new Map([['0311', 9]]))).toEqual([2])
    expect(of(new Map([['0311', 13]]))).toEqual([])
  })
})
