import { describe, expect, it } from 'vitest'
import { coverDesign } from '#lib/coverage/design-cover'
import { assignStandIns, coverThread, lineStatuses, statusRanks } from '#lib/coverage/line-status'
import type { ThreadNeed } from '#lib/coverage/need'
import type { Batch } from '#lib/stock/batch'
import { freeStock } from '#lib/stock/free-stock'

const skein = 480_000
const solid = { lotsMatter: false, putUpStrandTenths: skein }
const handDyed = { lotsMatter: true, putUpStrandTenths: skein }

const aNeed = (putUps: number, threadId = '0311'): ThreadNeed => ({
  threadId,
  strandTenths: putUps * skein,
  leastStrandTenths: putUps * skein,
  certainty: 'measured',
  from: [],
})
const stockOf = (...batches: Partial<Batch>[]) =>
  freeStock({
    threadId: '0311',
    batches: batches.map((change, index) => ({
      id: `b${index}`,
      threadId: '0311',
      ownerId: 'shop',
      lot: null,
      putUpWord: null,
      putUpStrandTenths: skein,
      wholePutUps: 1,
      partStrandTenths: 0,
      partCertainty: 'none' as const,
      homePlaceId: 'drawer',
      currentPlaceId: 'drawer',
      ...change,
    })),
    promises: [],
    ownerIds: ['shop'],
  })
const cover = (putUps: number, line: typeof solid, ...batches: Partial<Batch>[]) =>
  coverThread({ need: aNeed(putUps), free: stockOf(...batches), line, standInThreadId: null })
const out = { currentPlaceId: 'K-07' }

describe('the status of a line', () => {
  it('is ranked as listed, worst to best', () => {
    expect(lineStatuses.map((status) => statusRanks[status])).toEqual([0, 1, 2, 3, 4, 5, 6, 7])
  })

  it('is enough when one lot is', () => {
    expect(cover(2, handDyed, { lot: '18', wholePutUps: 2 })).toMatchObject({ status: 'enough', shortPutUps: 0, lotToBuy: null })
  })

  it('is mixed for a solid over one put-up from two lots, and just enough up to one', () => {
    expect(cover(2, solid, { lot: '18' }, { lot: '22' }).status).toBe('mixed')
    const half = { wholePutUps: 0, partStrandTenths: skein / 2, partCertainty: 'measured' as const }
    expect(cover(1, solid, { lot: '18', ...half }, { lot: '22', ...half }).status).toBe('enough')
  })

  it('is lots where they matter and none is enough: all of it to buy in one', () => {
    expect(cover(2, handDyed, { lot: '18' }, { lot: '22' })).toMatchObject({
      status: 'lots',
      shortStrandTenths: 0,
      shortPutUps: 2,
      lotToBuy: { lot: null, putUps: 2 },
    })
    expect(cover(2, handDyed, { lot: '18' }, { lot: '22', ...out }).status).toBe('lots')
  })

  it('is elsewhere when what is out would do', () => {
    expect(cover(2, solid, {}, out)).toMatchObject({ status: 'elsewhere', shortStrandTenths: skein, outStrandTenths: skein })
    expect(cover(2, handDyed, { lot: '18' }, { lot: '18', ...out }).status).toBe('elsewhere')
  })

  it('is unknown when an amount nobody judged might do', () => {
    expect(cover(2, solid, { partCertainty: 'some' }).status).toBe('unknown')
  })

  it('is short by what is wanting, or none', () => {
    expect(cover(2.5, solid, {})).toMatchObject({
      status: 'short',
      shortStrandTenths: 1.5 * skein,
      shortPutUps: 2,
      needPutUps: 3,
    })
    expect(cover(1, solid)).toMatchObject({ status: 'none', shortPutUps: 1 })
    expect(coverThread({ need: aNeed(1), free: null, line: solid, standInThreadId: null }).status).toBe('none')
  })

  it('asks for more of the lot held where lots matter, or for all of it when that lot has no mark', () => {
    expect(cover(3, handDyed, { lot: '18' })).toMatchObject({
      status: 'short',
      lotToBuy: { lot: '18', putUps: 2, wholePutUps: 3 },
    })
    expect(cover(3, handDyed, {})).toMatchObject({ status: 'short', shortPutUps: 3, lotToBuy: { lot: null, putUps: 3 } })
  })

  it('marks the answer with the weakest figure in it', () => {
    expect(cover(1, solid, { partStrandTenths: 100, partCertainty: 'guess' }).certainty).toBe('guess')
  })
})

describe('stand-ins', () => {
  const lines = new Map(['0311', '0742', '1204', '1211'].map((id) => [id, solid]))
  const standIns = new Map([
    ['1204', ['0311', '1211']],
    ['0742', ['0311']],
  ])
  const held = (threadId: string, wholePutUps: number) => ({ ...stockOf({ wholePutUps }), threadId })

  it('are not used beyond what their own need leaves', () => {
    const needs = [aNeed(1), aNeed(1, '0742')]
    const one = coverDesign({ needs, free: new Map([['0311', held('0311', 1)]]), lines, standIns })
    expect(one.threads.map((thread) => thread.status)).toEqual(['enough', 'none'])
    const two = coverDesign({ needs, free: new Map([['0311', held('0311', 2)]]), lines, standIns })
    expect(two).toMatchObject({ isStitchable: false, isStitchableWithSwaps: true, swapCount: 1 })
  })

  it('are those outside the chart first, so that two symbols do not fall together', () => {
    const free = new Map([
      ['0311', held('0311', 9)],
      ['1211', held('1211', 1)],
    ])
    const cover = coverDesign({ needs: [aNeed(1), aNeed(1, '1204')], free, lines, standIns })
    expect(cover.threads[1]).toMatchObject({ status: 'swap', standInThreadId: '1211' })
  })

  it('are shared out in the order of threads, whatever order they are asked in', () => {
    const wanted = [
      { threadId: '1204', strandTenths: 2 },
      { threadId: '0742', strandTenths: 2 },
    ]
    const ask = (list: typeof wanted) =>
      assignStandIns({ wanted: list, standInsOf: () => ['0311'], ownNeed: () => 0, isReadyWith: (_, length) => length <= 3 })
    expect(ask(wanted)).toEqual(new Map([['0742', '0311']]))
    expect(ask([...wanted].reverse())).toEqual(new Map([['0742', '0311']]))
  })

  it('does not call a list stitchable that is known to lack some of its key', () => {
    const whole = coverDesign({ needs: [], free: new Map(), lines, standIns, isIncomplete: true })
    expect(whole).toMatchObject({ status: 'unknown', isIncomplete: true, isStitchable: false, isStitchableWithSwaps: false })
  })

  it('does not call a list without threads stitchable', () => {
    const cover = coverDesign({ needs: [], free: new Map(), lines, standIns })
    expect(cover).toMatchObject({ status: 'unknown', isStitchable: false, isStitchableWithSwaps: false })
    expect(() => coverDesign({ needs: [aNeed(1, 'x')], free: new Map(), lines, standIns })).toThrow(RangeError)
  })
})
