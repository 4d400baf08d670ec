import { describe, expect, it } from 'vitest'
import { countBags } from '#lib/project/kit/bag-status'
import { type BagFacts, bagNumbers, planBagStep } from '#lib/project/kit/bags'
import { planMarks, sharpsIn } from '#lib/project/kit/check'
import { lotsOverBags, parseBags, rangesOf, withoutBag } from '#lib/project/kit/record'

const keys = ['thread:0311', 'cloth', 'chart', 'item:needle']
const there = (some: readonly string[] = keys) => some.map((key) => ({ key, status: 'there' as const, who: 'Ines Coldwell' }))
const aBag = (change: Partial<BagFacts> = {}): BagFacts => ({ number: 7, isSpare: false, status: 'open', marks: [], ...change })
const given = { keys, uncut: [], hasChart: true, reason: null }

describe('the way of a bag', () => {
  it('is packed only with its threads cut', () => {
    expect(planBagStep(aBag(), 'pack', { ...given, uncut: ['thread:0311'] })).toEqual({
      ...{ ok: false, error: { kind: 'not-cut', bag: 7, keys: ['thread:0311'] } },
    })
    expect(planBagStep(aBag(), 'pack', given)).toMatchObject({ ok: true, value: { status: 'packed', chartDelta: 0 } })
  })

  it('is not closed while a line is short, and says which', () => {
    const marks = [...there(keys.slice(1)), { key: 'thread:0311', status: 'short' as const }]
    expect(planBagStep(aBag({ status: 'packed', marks }), 'seal', given)).toEqual({
      ...{ ok: false, error: { kind: 'at-fault', bag: 7, faults: [{ key: 'thread:0311', status: 'short' }] } },
    })
  })

  it('is not closed while a line was not looked for', () => {
    expect(planBagStep(aBag({ status: 'packed', marks: there(keys.slice(0, 3)) }), 'seal', given)).toEqual({
      ...{ ok: false, error: { kind: 'not-checked', bag: 7, keys: ['item:needle'] } },
    })
  })

  it('takes a chart when it is closed, a spare only when it is sold (A6: twelve charts, then a thirteenth)', () => {
    const checked = aBag({ status: 'checked', marks: there() })
    expect(planBagStep(checked, 'seal', given)).toMatchObject({ value: { status: 'sealed', chartDelta: -1 } })
    const spare = { ...checked, isSpare: true }
    expect(planBagStep(spare, 'seal', given)).toMatchObject({ value: { chartDelta: 0 } })
    expect(planBagStep({ ...spare, status: 'sealed' }, 'sell', given)).toMatchObject({
      value: { status: 'sold', chartDelta: -1 },
    })
    expect(planBagStep({ ...checked, status: 'sealed' }, 'sell', given)).toMatchObject({ value: { chartDelta: 0 } })
  })

  it('takes no chart where the chart is a file', () => {
    const noChart = { ...given, hasChart: false }
    const sealed = planBagStep(aBag({ status: 'checked', marks: there() }), 'seal', noChart)
    expect(sealed.ok && sealed.value.chartDelta === 0).toBe(true)
  })

  it('is opened again only for a reason, gives its chart back and is to be looked through again', () => {
    const sealed = aBag({ status: 'sealed', marks: there() })
    expect(planBagStep(sealed, 'unseal', { ...given, reason: '  ' })).toMatchObject({ error: { kind: 'no-reason' } })
    expect(planBagStep(sealed, 'unseal', { ...given, reason: 'wrong red' })).toEqual({
      ...{ ok: true, value: { status: 'packed', forgetsMarks: true, chartDelta: 1 } },
    })
  })

  it.each([
    ['packed', 'pack'],
    ['open', 'seal'],
    ['checked', 'sell'],
    ['sold', 'unseal'],
    ['sealed', 'take back'],
    ['sealed', 'unpack'],
  ] as const)('from %s it cannot be: %s', (status, step) => {
    expect(planBagStep(aBag({ status }), step, { ...given, reason: 'because' })).toEqual({
      ...{ ok: false, error: { kind: 'not-from-here', bag: 7, status, step } },
    })
  })
})

describe('looking a bag through', () => {
  const packed = { number: 7, status: 'packed' as const, packedBy: 'Nell Oxtoby', marks: [] }
  const ask = { keys, by: 'Ines Coldwell', isAlone: false }

  it('makes it checked once every line is there, and packed again as soon as one is not', () => {
    expect(planMarks(packed, { ...ask, marks: there() })).toMatchObject({ value: { status: 'checked' } })
    const checked = { ...packed, status: 'checked' as const, marks: there() }
    expect(planMarks(checked, { ...ask, marks: [{ key: 'cloth', status: 'wrong' }] })).toMatchObject({
      value: { status: 'packed' },
    })
  })

  it('wants another pair of eyes than packed it, unless nobody else is at hand', () => {
    const by = { ...ask, by: ' nell  OXTOBY' }
    expect(planMarks(packed, { ...by, marks: there() })).toMatchObject({ error: { kind: 'same-person', who: 'Nell Oxtoby' } })
    expect(planMarks(packed, { ...by, isAlone: true, marks: there() })).toMatchObject({ value: { status: 'checked' } })
  })

  it('keeps what another marked meanwhile, and says so', () => {
    const marks = [{ key: 'cloth', status: 'short' as const, who: 'Joss Tarrow' }]
    const planned = planMarks({ ...packed, marks }, { ...ask, marks: [{ key: 'cloth', status: 'there', saw: null }] })
    expect(planned).toMatchObject({ value: { marks: [], conflicts: [{ key: 'cloth', status: 'short', who: 'Joss Tarrow' }] } })
    // Knowing of it, one may.
    const knowing = planMarks({ ...packed, marks }, { ...ask, marks: [{ key: 'cloth', status: 'there', saw: 'short' }] })
    expect(knowing).toMatchObject({ value: { marks: [{ key: 'cloth', status: 'there' }], conflicts: [] } })
  })

  it('is for bags that are packed and not closed, and for lines they are packed by', () => {
    expect(planMarks({ ...packed, status: 'open' }, { ...ask, marks: there() })).toMatchObject({ error: { kind: 'not-packed' } })
    expect(planMarks({ ...packed, status: 'sealed' }, { ...ask, marks: there() })).toMatchObject({ error: { kind: 'closed' } })
    const other = [{ key: 'item:other', status: 'there' as const }]
    expect(planMarks(packed, { ...ask, marks: other })).toMatchObject({ error: { kind: 'no-such-line', key: 'item:other' } })
  })
})

describe('bags and their lots', () => {
  it('has the spares last', () => {
    const bags = bagNumbers({ copies: 13, spares: 1 })
    expect(bags.filter(({ isSpare }) => isSpare)).toEqual([{ number: 13, isSpare: true }])
  })

  it('counts where they stand', () => {
    expect(countBags([{ status: 'sold' }, { status: 'sealed' }, { status: 'sealed' }])).toEqual({
      ...{ open: 0, packed: 0, checked: 0, sealed: 2, sold: 1 },
    })
  })

  it('names runs of bags', () => {
    expect(rangesOf([3, 1, 2, 9, 5, 5])).toEqual([
      { fromBag: 1, toBag: 3 },
      { fromBag: 5, toBag: 5 },
      { fromBag: 9, toBag: 9 },
    ])
  })

  it.each([
    ['1–8, 13', [1, 2, 3, 4, 5, 6, 7, 8, 13]],
    ['1-3 5', [1, 2, 3, 5]],
    ['bags 2 to 4 and 13', [2, 3, 4, 13]],
    ['all', Array.from({ length: 13 }, (_, at) => at + 1)],
    ['', null],
    ['14', null],
    ['8-1', null],
    ['the first', null],
  ])('reads %j as bags', (text, bags) => {
    const known = Array.from({ length: 13 }, (_, at) => at + 1)
    expect(parseBags(text, known)).toEqual(bags)
  })

  it('takes a bag out of a line of the record', () => {
    const line = { threadId: 't', batchId: 'b', lot: '22', fromBag: 1, toBag: 8 }
    expect(withoutBag(line, 3).map(({ fromBag, toBag }) => [fromBag, toBag])).toEqual([
      [1, 2],
      [4, 8],
    ])
    expect(withoutBag({ ...line, toBag: 1 }, 1)).toEqual([])
    expect(withoutBag(line, 9)).toEqual([line])
  })

  it('holds two unmarked batches to be two lots', () => {
    const line = { threadId: 't', lot: null, fromBag: 1, toBag: 4 }
    const lots = lotsOverBags(
      [
        { ...line, batchId: 'a' },
        { ...line, batchId: 'b', fromBag: 5, toBag: 6 },
      ],
      't',
    )
    expect(lots.map(({ bags }) => bags.length)).toEqual([4, 2])
  })

  it('counts needles', () => {
    const of = (itemKind: string, count: number) => ({ itemKind, perKit: { count } })
    expect(sharpsIn([of('needle', 2), of('beads', 40), of('needle', 1)])).toBe(3)
  })
})
