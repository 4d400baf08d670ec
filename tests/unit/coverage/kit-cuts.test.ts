import { describe, expect, it } from 'vitest'
import { kitsFrom, kitsPromised, lengthForKits } from '#lib/coverage/kit-cuts'
import { planPromises } from '#lib/project/plan-start'
import type { Batch } from '#lib/stock/batch'

/** Lengths of thread of one strand, in tenths of a millimetre. */
const metre = 10_000
const skein = 8 * metre

const aBatch = (id: string, change: Partial<Batch> = {}): Batch => ({
  ...{ id, threadId: '0311', ownerId: 'shop', lot: null, putUpWord: null, putUpStrandTenths: skein, wholePutUps: 1 },
  ...{ partStrandTenths: 0, partCertainty: 'none', homePlaceId: 'drawer', currentPlaceId: 'drawer' },
  ...change,
})

const plan = (cut: number, copies: number, batches: Batch[], lotsMatter = false) =>
  planPromises({
    needs: [{ threadId: '0311', strandTenths: cut * copies }],
    batches,
    promises: [],
    lines: new Map([['0311', { lotsMatter }]]),
    projectId: 'lanterns',
    ownerIds: ['shop'],
    copies,
  })

describe('cuts for kits', () => {
  it('takes whole put-ups and one cut where a kit wants more than a put-up', () => {
    // Two kits of 1.3 put-ups: one whole each, and both cuts of 0.3 out of a third.
    const stock = { putUpStrandTenths: skein, wholePutUps: 3, partStrandTenths: 0 }
    expect(kitsFrom(stock, 1.3 * skein)).toBe(2)
    expect(kitsFrom({ ...stock, wholePutUps: 2 }, 1.3 * skein)).toBe(1)
    expect(kitsFrom({ ...stock, wholePutUps: 2, partStrandTenths: 0.6 * skein }, 1.3 * skein)).toBe(2)
    expect(lengthForKits(stock, 1.3 * skein, 2)).toBe(2.6 * skein)
  })

  it('passes over a part shorter than a cut, and uses a longer one first', () => {
    const short = aBatch('short', { wholePutUps: 0, partStrandTenths: 3 * metre, partCertainty: 'measured' })
    const long = aBatch('long', { wholePutUps: 0, partStrandTenths: 4 * metre, partCertainty: 'measured' })
    const whole = aBatch('whole', { wholePutUps: 2 })
    expect(plan(3.1 * metre, 2, [short, long, whole])).toEqual({
      promises: [{ batchId: 'whole', projectId: 'lanterns', strandTenths: 6.2 * metre }],
      short: [],
    })
    const marked = [short, long, whole].map((batch) => ({ ...batch, lot: '18' }))
    expect(plan(3.1 * metre, 2, marked).promises.map(({ batchId, strandTenths }) => [batchId, strandTenths])).toEqual([
      ['long', 3.1 * metre],
      ['whole', 3.1 * metre],
    ])
    // As one length the three would do; as cuts the short part serves nobody.
    expect(plan(3.1 * metre, 3, [short, long]).short).toEqual([{ threadId: '0311', shortStrandTenths: 2 * 3.1 * metre }])
  })

  it('keeps to one lot where lots matter, the smallest that serves every kit', () => {
    const lots = [
      aBatch('a', { lot: '18', wholePutUps: 3 }),
      aBatch('b', { lot: '22', wholePutUps: 2 }),
      aBatch('c', { lot: '30', wholePutUps: 1 }),
    ]
    expect(plan(3.1 * metre, 4, lots, true).promises.map(({ batchId }) => batchId)).toEqual(['b'])
    expect(plan(3.1 * metre, 7, lots, true)).toMatchObject({
      promises: [{ batchId: 'a' }],
      short: [{ shortStrandTenths: 3.1 * metre }],
    })
    expect(plan(3.1 * metre, 7, lots, false).promises.map(({ batchId }) => batchId)).toEqual(['a', 'b'])
  })

  it('leaves what others were promised, and adds to what is kept', () => {
    const batches = [aBatch('a', { wholePutUps: 2 })]
    const promises = [
      { id: 'p1', batchId: 'a', projectId: 'rooks', strandTenths: skein },
      { id: 'p2', batchId: 'a', projectId: 'lanterns', strandTenths: 3.1 * metre },
    ]
    const asked = {
      needs: [{ threadId: '0311', strandTenths: 9.3 * metre }],
      ...{ batches, promises, lines: new Map([['0311', { lotsMatter: false }]]), projectId: 'lanterns', ownerIds: ['shop'] },
      ...{ copies: 3, keptBatchIds: new Set(['a']) },
    }
    expect(planPromises(asked)).toEqual({
      promises: [{ batchId: 'a', projectId: 'lanterns', strandTenths: 6.2 * metre }],
      short: [{ threadId: '0311', shortStrandTenths: 3.1 * metre }],
    })
  })

  it('counts what a promise serves', () => {
    const stock = { putUpStrandTenths: skein, wholePutUps: 7, partStrandTenths: 0 }
    // 40.3 m is the 13 kits' own length, and serves ten: five skeins in full give two cuts each, the 0.3 m beyond them none.
    expect(kitsPromised(stock, 3.1 * metre, 40.3 * metre)).toBe(10)
    expect(kitsPromised(stock, 3.1 * metre, lengthForKits(stock, 3.1 * metre, 13))).toBe(13)
    expect(() => kitsFrom(stock, 0)).toThrow(RangeError)
  })
})
