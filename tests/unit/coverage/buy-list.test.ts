import { describe, expect, it } from 'vitest'
import { type BuyLine, planBuyList, type ThreadStock, type ToCome, type Want } from '#lib/coverage/buy-list'
import type { ThreadNeed } from '#lib/coverage/need'
import type { Batch, StockPromise } from '#lib/stock/batch'
import { aBatch as anyBatch, aPromise, skein } from '#tests/unit/stock/batches'

const fiveYards = 5 * 9_144 * 6
const solid = { lotsMatter: false, putUpStrandTenths: skein }
const dyed = { lotsMatter: true, putUpStrandTenths: fiveYards }
const lines = new Map([
  ['0311', solid],
  ['0742', solid],
  ['Tarn Blue', dyed],
])

const need = (threadId: string, strandTenths: number): ThreadNeed => ({
  threadId,
  strandTenths,
  leastStrandTenths: strandTenths,
  certainty: 'measured',
  from: [],
})
const want = (key: string, ...needs: ThreadNeed[]): Want => ({ key, projectId: null, needs })
const aBatch = (threadId: string, change: Partial<Batch> = {}): Batch =>
  anyBatch({
    id: `${threadId} ${change.lot ?? ''}`,
    threadId,
    putUpStrandTenths: (lines.get(threadId) ?? solid).putUpStrandTenths,
    wholePutUps: 1,
    ...change,
  })

function plan(
  wants: Want[],
  held: {
    batches?: Batch[]
    promises?: StockPromise[]
    toCome?: Record<string, ToCome[]>
    standIns?: Record<string, string[]>
  } = {},
): Record<string, BuyLine> {
  const { batches = [], promises = [], toCome = {}, standIns = {} } = held
  const stock = new Map<string, ThreadStock>()
  for (const batch of batches) {
    const known = stock.get(batch.threadId)?.batches ?? []
    stock.set(batch.threadId, { batches: [...known, batch], promises })
  }
  const planned = planBuyList({
    wants,
    stock,
    toCome: new Map(Object.entries(toCome)),
    lines,
    standIns: new Map(Object.entries(standIns)),
    ownerIds: ['shop'],
  })
  return Object.fromEntries(planned.map((line) => [line.threadId, line]))
}

describe('a thread of which any lot will do', () => {
  it('sums the needs of all designs before it rounds to put-ups', () => {
    const list = plan([want('rooks', need('0311', 0.4 * skein)), want('lanterns', need('0311', 0.5 * skein))])
    expect(list['0311']).toMatchObject({ standing: 'buy', putUps: 1, needStrandTenths: 0.9 * skein, sameLot: null })
    expect(list['0311']?.uses.map(({ key }) => key)).toEqual(['rooks', 'lanterns'])
  })

  it('takes what is free off once', () => {
    const wants = [want('rooks', need('0311', 2 * skein)), want('lanterns', need('0311', 2 * skein))]
    expect(plan(wants, { batches: [aBatch('0311', { wholePutUps: 2 })] })['0311']).toMatchObject({
      freeStrandTenths: 2 * skein,
      putUps: 2,
    })
  })

  it('takes off what is on order, and nothing of another owner', () => {
    const order = { orderId: 'o1', putUpStrandTenths: skein, putUps: 1, lot: null }
    const list = plan([want('rooks', need('0311', 3 * skein))], {
      batches: [aBatch('0311', { ownerId: 'hanne', wholePutUps: 9 })],
      toCome: { '0311': [order] },
    })
    expect(list['0311']).toMatchObject({ freeStrandTenths: 0, onOrderStrandTenths: skein, putUps: 2 })
  })

  it('counts what a project was promised for that project alone', () => {
    const batches = [aBatch('0311', { wholePutUps: 3 })]
    const promises = [aPromise({ batchId: '0311 ', projectId: 'p1', strandTenths: 3 * skein })]
    const project: Want = { key: 'rooks', projectId: 'p1', needs: [need('0311', 2 * skein)] }
    expect(plan([project], { batches, promises })['0311']).toMatchObject({ standing: 'covered', putUps: 0 })
    const both = plan([project, want('lanterns', need('0311', skein))], { batches, promises })
    // The third skein is promised to the project too: it is not the other design's to use.
    expect(both['0311']).toMatchObject({ standing: 'buy', putUps: 1, promisedStrandTenths: 2 * skein, freeStrandTenths: 0 })
  })

  it('buys what is promised to others, but only perhaps what is merely out', () => {
    const out = [aBatch('0311', { currentPlaceId: 'K-07' })]
    expect(plan([want('rooks', need('0311', skein))], { batches: out })['0311']).toMatchObject({ standing: 'out', putUps: 1 })
    const promises = [aPromise({ batchId: '0311 ', projectId: 'another', strandTenths: skein })]
    expect(plan([want('rooks', need('0311', skein))], { batches: out, promises })['0311']?.standing).toBe('buy')
  })

  it('asks to measure a part of unknown length where that may be enough', () => {
    const batches = [aBatch('0311', { wholePutUps: 0, partCertainty: 'some' })]
    expect(plan([want('rooks', need('0311', skein / 2))], { batches })['0311']).toMatchObject({ standing: 'unknown', putUps: 1 })
    expect(plan([want('rooks', need('0311', 2 * skein))], { batches })['0311']?.standing).toBe('buy')
  })

  it('does not assume a swap, but says that it is held', () => {
    const held = { batches: [aBatch('0742', { wholePutUps: 3 })], standIns: { '0311': ['0742'] } }
    expect(plan([want('rooks', need('0311', skein))], held)['0311']).toMatchObject({
      standing: 'swap',
      putUps: 1,
      standInThreadId: '0742',
    })
    const itsOwnUse = plan([want('rooks', need('0311', skein), need('0742', 3 * skein))], held)
    expect(itsOwnUse['0311']?.standing).toBe('buy')
  })

  it('says how many of another length it is held in would do', () => {
    const batches = [aBatch('0311', { wholePutUps: 0, putUpStrandTenths: fiveYards })]
    expect(plan([want('rooks', need('0311', skein))], { batches })['0311']?.otherPutUps).toEqual([
      { putUpStrandTenths: fiveYards, putUps: 2 },
    ])
  })
})

describe('a thread whose lots matter', () => {
  const blue = (putUps: number) => need('Tarn Blue', putUps * fiveYards)

  it('wants the whole of a design in one lot, to be bought at once', () => {
    expect(plan([want('kettle', blue(4.2))])['Tarn Blue']).toMatchObject({
      standing: 'buy',
      putUps: 5,
      sameLot: { lot: null, newLotPutUps: 5, sparePutUps: 1 },
    })
    expect(plan([want('kettle', blue(11))])['Tarn Blue']?.sameLot?.sparePutUps).toBe(2)
  })

  it('adds to a marked lot, or says what a new one would take', () => {
    const list = plan([want('kettle', blue(3))], { batches: [aBatch('Tarn Blue', { lot: '18' })] })
    expect(list['Tarn Blue']).toMatchObject({ standing: 'buy', putUps: 2, sameLot: { lot: '18', newLotPutUps: 3 } })
  })

  it('cannot add to an unmarked lot', () => {
    const list = plan([want('kettle', blue(3))], { batches: [aBatch('Tarn Blue', { wholePutUps: 2 })] })
    expect(list['Tarn Blue']).toMatchObject({ putUps: 3, sameLot: { lot: null } })
  })

  it('serves each design from a lot of its own where there is one', () => {
    const batches = [aBatch('Tarn Blue', { lot: '18' }), aBatch('Tarn Blue', { lot: '22', wholePutUps: 2 })]
    const wants = [want('kettle', blue(1)), want('rooks', blue(2))]
    expect(plan(wants, { batches })['Tarn Blue']).toMatchObject({ standing: 'covered', putUps: 0, sameLot: null })
  })

  it('counts a lot on order, and one that was promised to the project already', () => {
    const order = { orderId: 'o1', putUpStrandTenths: fiveYards, putUps: 2, lot: '18' }
    expect(plan([want('kettle', blue(2))], { toCome: { 'Tarn Blue': [order] } })['Tarn Blue']?.putUps).toBe(0)
    const batches = [aBatch('Tarn Blue', { lot: '18', wholePutUps: 2 })]
    const promises = [aPromise({ batchId: 'Tarn Blue 18', projectId: 'p1', strandTenths: fiveYards })]
    const project: Want = { key: 'kettle', projectId: 'p1', needs: [blue(3)] }
    expect(plan([project], { batches, promises })['Tarn Blue']).toMatchObject({
      putUps: 1,
      sameLot: { lot: '18', newLotPutUps: 3 },
    })
  })
})

it('carries the weakest certainty of the needs and the stock', () => {
  const guessed = aBatch('0311', { partStrandTenths: 1, partCertainty: 'guess' })
  const assumed: ThreadNeed = { ...need('0742', 1), certainty: 'assumed' }
  const list = plan([want('rooks', need('0311', skein), assumed)], { batches: [guessed] })
  expect(list['0311']?.certainty).toBe('guess')
  expect(list['0742']?.certainty).toBe('assumed')
})

it('refuses two wants of one key and a thread without a line', () => {
  expect(() => plan([want('rooks'), want('rooks')])).toThrow(RangeError)
  expect(() => plan([want('rooks', need('unknown', 1))])).toThrow(RangeError)
})

describe('a thread cut for kits', () => {
  // Source: the project's trade notes, scenario A6: 13 kits of 3.1 m, two cuts a skein of 8 m: seven skeins, six of them in full.
  const cut = 186_000
  const kits: Want = { ...want('kits', need('0311', 6 * skein + cut)), cuts: new Map([['0311', cut]]) }

  it('takes seven skeins', () => {
    expect(plan([kits])['0311']).toMatchObject({ putUps: 7, cutStrandTenths: cut })
  })

  it('counts put-ups of another length by the cuts that come out of them', () => {
    // Three of 10 m give nine cuts; the four that are left are two skeins. By length 21.1 m would be short: three.
    const spools = aBatch('0311', { putUpStrandTenths: 600_000, wholePutUps: 3 })
    expect(plan([kits], { batches: [spools] })['0311']?.putUps).toBe(2)
    // Of 3 m nothing comes.
    const bits = aBatch('0311', { putUpStrandTenths: 180_000, wholePutUps: 20 })
    expect(plan([kits], { batches: [bits] })['0311']?.putUps).toBe(7)
  })
})

it('counts on what is on a list somebody shops by, and says so', () => {
  const toCome = { '0311': [{ orderId: 'l1', putUpStrandTenths: skein, putUps: 2, lot: null, isOnList: true }] }
  expect(plan([want('Nine Wrens', need('0311', 3 * skein))], { toCome })['0311']).toMatchObject({
    ...{ putUps: 1, onListStrandTenths: 2 * skein, onOrderStrandTenths: 0 },
  })
})
