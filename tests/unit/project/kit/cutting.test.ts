import { describe, expect, it } from 'vitest'
import { type KitCutting, planKitCutting, type ThreadToCut } from '#lib/project/kit/cutting'
import type { KitLot } from '#lib/project/kit/record'
import type { Batch, StockPromise } from '#lib/stock/batch'

/** Lengths of thread of one strand, in tenths of a millimetre. */
const metre = 10_000
const thirteen = Array.from({ length: 13 }, (_, at) => at + 1)

const aBatch = (id: string, change: Partial<Batch> = {}): Batch => ({
  ...{ id, threadId: '0311', ownerId: 'shop', lot: null, putUpWord: null, putUpStrandTenths: 8 * metre, wholePutUps: 7 },
  ...{ partStrandTenths: 0, partCertainty: 'none', homePlaceId: 'drawer', currentPlaceId: 'drawer' },
  ...change,
})
const hank = (id: string, lot: string | null, wholePutUps: number) =>
  aBatch(id, { threadId: 'Tarn Blue', lot, putUpStrandTenths: 45_720, wholePutUps })
const promised = (batchId: string, strandTenths: number, projectId = 'lanterns'): StockPromise => ({
  ...{ id: `${projectId} ${batchId}`, batchId, projectId, strandTenths },
})
const ofThread = (threadId: string, cutMetres: number, needsOneLot = false, linePutUp = 8 * metre): ThreadToCut => ({
  ...{ threadId, cutStrandTenths: cutMetres * metre, linePutUpStrandTenths: linePutUp, needsOneLot },
})
const tarnBlue = ofThread('Tarn Blue', 1.2, true, 45_720)

type World = { batches: Batch[]; promises?: StockPromise[]; lots?: KitLot[]; bags?: number[] }
function plan(thread: ThreadToCut, { batches, promises = [], lots = [], bags = thirteen }: World): KitCutting {
  let made = 0
  const newBatchId = () => `new:${++made}`
  return planKitCutting({ projectId: 'lanterns', ownerId: 'shop', threads: [thread], bags, lots, batches, promises, newBatchId })
}
const runsOf = ({ threads }: KitCutting) =>
  threads.flatMap(({ runs }) => runs.map(({ batchId, fromBag, toBag }) => `${batchId} ${fromBag}-${toBag}`))
const batchOf = ({ change }: KitCutting, id: string) => change.batches.find((batch) => batch.id === id)

// Scenario A6 of the trade notes: 13 cuts of 3.1 m from 8 m skeins, 2 a skein, 7 skeins; Tarn Blue 1.2 m, 3 a hank of 5 yd, 5 hanks of one lot.
describe('cutting for thirteen kits', () => {
  it('opens seven skeins, leaves six remnants of 1.8 m and keeps the 4.9 m of the last', () => {
    const cut = plan(ofThread('0311', 3.1), { batches: [aBatch('a')], promises: [promised('a', 51.1 * metre)] })
    expect(runsOf(cut)).toEqual(['a 1-13'])
    expect(batchOf(cut, 'a')).toMatchObject({ wholePutUps: 0, partStrandTenths: 4.9 * metre, partCertainty: 'label' })
    expect(batchOf(cut, 'new:1')).toMatchObject({
      ...{ putUpWord: 'remnant', putUpStrandTenths: 1.8 * metre, wholePutUps: 6, partStrandTenths: 0 },
      ...{ isNew: true, parentId: 'a', homePlaceId: 'drawer', lot: null },
    })
    // 13 × 3.1 m = 40.3 m used of 56 m.
    const used = cut.change.movements.find(({ kind }) => kind === 'use')
    expect(used).toMatchObject({ batchId: 'a', wholeDelta: -7, partDeltaStrandTenths: 15.7 * metre, projectId: 'lanterns' })
  })

  it('frees what was promised beyond the cuts once every bag has its own', () => {
    const cut = plan(ofThread('0311', 3.1), { batches: [aBatch('a')], promises: [promised('a', 51.1 * metre)] })
    expect(cut.change.promises).toEqual([{ batchId: 'a', projectId: 'lanterns', strandTenths: 0 }])
  })

  it('takes all of one lot where one is enough, though the other is promised too', () => {
    const cut = plan(tarnBlue, {
      batches: [hank('lot 18', '18', 2), hank('lot 22', '22', 5)],
      promises: [promised('lot 18', 2 * 45_720), promised('lot 22', 5 * 45_720)],
    })
    expect(runsOf(cut)).toEqual(['lot 22 1-13'])
    expect(cut.threads[0]).toMatchObject({ isMixed: false, short: [] })
    expect(cut.change.promises).toContainEqual({ batchId: 'lot 18', projectId: 'lanterns', strandTenths: 0 })
  })

  it('says which bags differ where no lot is enough', () => {
    // 3 hanks give 9 cuts, 2 give 6.
    const cut = plan(tarnBlue, {
      batches: [hank('a', '18', 3), hank('b', '22', 2)],
      promises: [promised('a', 3 * 45_720), promised('b', 2 * 45_720)],
    })
    expect(runsOf(cut)).toEqual(['a 1-9', 'b 10-13'])
    expect(cut.threads[0]).toMatchObject({
      isMixed: true,
      lots: [
        { lot: '18', bags: [1, 2, 3, 4, 5, 6, 7, 8, 9] },
        { lot: '22', bags: [10, 11, 12, 13] },
      ],
    })
  })

  it('opens a free lot that is enough by itself rather than mix promised ones, where lots matter', () => {
    const batches = [hank('a', '18', 3), hank('b', '22', 2), hank('free', '25', 6)]
    const promises = [promised('a', 3 * 45_720), promised('b', 2 * 45_720)]
    expect(runsOf(plan(tarnBlue, { batches, promises }))).toEqual(['free 1-13'])
    const solid = { ...tarnBlue, needsOneLot: false }
    expect(runsOf(plan(solid, { batches, promises }))).toEqual(['a 1-9', 'b 10-13'])
  })

  it('keeps to the lot the other bags have', () => {
    const lots: KitLot[] = [{ threadId: 'Tarn Blue', batchId: 'gone', lot: '22', fromBag: 1, toBag: 9 }]
    const cut = plan(tarnBlue, { batches: [hank('a', '18', 2), hank('b', '22', 3)], lots })
    expect(runsOf(cut)).toEqual(['b 10-13'])
    expect(cut.threads[0]?.isMixed).toBe(false)
  })

  it('names the bags there is no cut for, and keeps the promise', () => {
    const cut = plan(ofThread('0311', 3.1), {
      batches: [aBatch('a', { wholePutUps: 4 })],
      promises: [promised('a', 4 * 8 * metre)],
    })
    expect(runsOf(cut)).toEqual(['a 1-8'])
    expect(cut.threads[0]?.short).toEqual([9, 10, 11, 12, 13])
    // 32 m promised less 24.8 m cut are 7.2 m, of which three remnants of 1.8 m serve no kit.
    expect(cut.change.promises).toEqual([{ batchId: 'a', projectId: 'lanterns', strandTenths: 1.8 * metre }])
  })

  it('joins no remnants: four of 1.8 m are 7.2 m and still no cut of 3.1 m', () => {
    const first = plan(ofThread('0311', 3.1), { batches: [aBatch('a', { wholePutUps: 4 })] })
    const batches = first.change.batches.map(({ isNew: _n, isGone: _g, parentId: _p, ...batch }) => batch)
    expect(batches).toMatchObject([{ partStrandTenths: 1.8 * metre }, { wholePutUps: 3, putUpStrandTenths: 1.8 * metre }])
    const lots = first.threads[0]?.runs ?? []
    expect(runsOf(plan(ofThread('0311', 3.1), { batches, lots }))).toEqual([])
    // They do for a shorter cut of another batch of kits: one of 0.9 m from each half.
    expect(plan(ofThread('0311', 0.9), { batches, bags: [1, 2, 3, 4, 5, 6, 7, 8, 9] }).threads[0]?.short).toEqual([9])
  })

  it('joins whole skeins only where the thread is always sold shorter than the cut', () => {
    // Two kits of 10 m from 8 m skeins: one whole each, and 2 m of a third.
    const cut = plan(ofThread('0311', 10), { batches: [aBatch('a', { wholePutUps: 3 })], bags: [1, 2] })
    expect(runsOf(cut)).toEqual(['a 1-2'])
    expect(batchOf(cut, 'a')).toMatchObject({ wholePutUps: 0, partStrandTenths: 4 * metre })
  })

  it('leaves what others were promised', () => {
    const cut = plan(ofThread('0311', 3.1), {
      batches: [aBatch('a')],
      promises: [promised('a', 3 * 8 * metre, 'barge'), promised('a', 32 * metre)],
    })
    expect(runsOf(cut)).toEqual(['a 1-8'])
    expect(cut.change.promises.some(({ projectId }) => projectId === 'barge')).toBe(false)
  })

  it('does not touch the stock of another owner', () => {
    expect(runsOf(plan(ofThread('0311', 3.1), { batches: [aBatch('a', { ownerId: 'nell' })] }))).toEqual([])
  })

  it('keeps an old part that is too short for a cut apart from the rest of the last skein', () => {
    const part = { wholePutUps: 1, partStrandTenths: 0.5 * metre, partCertainty: 'guess' } as const
    const cut = plan(ofThread('0311', 3.1), { batches: [aBatch('a', part)], bags: [1] })
    expect(batchOf(cut, 'a')).toMatchObject({ wholePutUps: 0, partStrandTenths: 4.9 * metre, partCertainty: 'label' })
    expect(batchOf(cut, 'new:1')).toMatchObject({ wholePutUps: 0, partStrandTenths: 0.5 * metre, partCertainty: 'guess' })
  })
})
