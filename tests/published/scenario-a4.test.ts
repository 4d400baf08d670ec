import { expect, it } from 'vitest'
import type { KeyLine } from '#lib/chart/thread-list'
import { coverDesign } from '#lib/coverage/design-cover'
import { needOfList } from '#lib/coverage/need'
import type { Batch } from '#lib/stock/batch'
import { freeStockByThread } from '#lib/stock/free-stock'
import type { ThreadLine } from '#lib/thread/thread'

// Source: the project's trade notes, scenario A4 "Cover", worked by hand. Kettle at Wend Cross, 8 threads: 0311 alone 0.6 of a skein and
// in a blend 0.3, need 1, hold 2. Ecru need 1.2 m, hold a part of 2.5 m measured. Quillwater 12 enough. 0742 need 2 hold 1. 0087 need 1,
// hold 1 but out in bag K-07. 1204 need 1 hold 0, swap held. Tarn Blue need 2 of one lot, hold 1 of lot 18 and 1 of lot 22. 0905 none.
// Ready 3 of 8; 1 swap; 1 out; 1 lot problem; 2 to buy (0742 x1, 0905 x1); Tarn Blue x2 of one lot; if the swap is refused, 1204 x1.

const skein = 480_000
const metre = 60_000
const fiveYards = 5 * 9_144 * 6
const spool = 500_000

const aLine = (change: Partial<ThreadLine>): ThreadLine => ({
  id: 'line',
  makerId: 'maker',
  makerName: 'Larkholm',
  name: 'Stranded cotton',
  fibre: 'cotton',
  strands: 6,
  putUpStrandTenths: skein,
  putUpWord: 'skein',
  dyeing: 'solid',
  lotsMatter: false,
  working: 'rows',
  ...change,
})
const cotton = aLine({})
const handDyed = aLine({
  makerName: 'Oddny Loft',
  putUpStrandTenths: fiveYards,
  dyeing: 'overdyed',
  lotsMatter: true,
  working: 'crosses',
})
const filament = aLine({ makerName: 'Quillwater', strands: 1, putUpStrandTenths: spool, putUpWord: 'spool' })

const lines = new Map<string, ThreadLine>([
  ...['0311', 'Ecru', '0742', '0087', '1204', '1211', '0905'].map((code): [string, ThreadLine] => [code, cotton]),
  ['Quillwater 12', filament],
  ['Tarn Blue', handDyed],
])

const keyLine = (symbol: string, ...threads: [string, number][]): KeyLine => ({
  id: `line ${symbol}`,
  symbol,
  tally: null,
  threads: threads.map(([threadId, hundredths]) => ({
    threadId,
    strands: threads.length > 1 ? 1 : 2,
    stated: { hundredths, putUpTenths: null },
  })),
})

const list = {
  id: 'cotton',
  designId: 'kettle',
  name: 'As charted',
  keyLines: [
    keyLine('1', ['0311', 60]),
    keyLine('2', ['0311', 30], ['Quillwater 12', 10]),
    keyLine('3', ['Ecru', 15]),
    keyLine('4', ['0742', 200]),
    keyLine('5', ['0087', 100]),
    keyLine('6', ['1204', 100]),
    keyLine('7', ['Tarn Blue', 200]),
    keyLine('8', ['0905', 100]),
  ],
}

const aBatch = (threadId: string, change: Partial<Batch>): Batch => ({
  id: `${threadId} ${change.lot ?? ''}`,
  threadId,
  ownerId: 'own stash',
  lot: null,
  putUpWord: null,
  putUpStrandTenths: (lines.get(threadId) as ThreadLine).putUpStrandTenths,
  wholePutUps: 1,
  partStrandTenths: 0,
  partCertainty: 'none',
  homePlaceId: 'drawer',
  currentPlaceId: 'drawer',
  ...change,
})
const batches = [
  aBatch('0311', { wholePutUps: 2 }),
  aBatch('Ecru', { wholePutUps: 0, partStrandTenths: 2.5 * metre, partCertainty: 'measured' }),
  aBatch('Quillwater 12', {}),
  aBatch('0742', {}),
  aBatch('0087', { currentPlaceId: 'K-07' }),
  aBatch('1211', {}),
  aBatch('Tarn Blue', { lot: '18' }),
  aBatch('Tarn Blue', { lot: '22' }),
]

const advised = { count: { threads: 28, perUm: 25_400 }, over: 2 as const, weave: 'single' as const, insists: false, name: null }
const needs = needOfList({ list, lines, advised, size: null, coverKind: null, settings: { allowance: 1.5 } })
const free = freeStockByThread({ batches, promises: [], ownerIds: ['own stash'] })
const cover = coverDesign({ needs, free, lines, standIns: new Map([['1204', ['1211']]]) })
const threadOf = (threadId: string) => cover.threads.find((thread) => thread.threadId === threadId)

it('sums a thread used alone and in a blend before rounding to skeins', () => {
  expect(needs.find((need) => need.threadId === '0311')?.strandTenths).toBe(0.9 * skein)
  expect(threadOf('0311')).toMatchObject({ status: 'enough', needPutUps: 1 })
  expect(needs.find((need) => need.threadId === 'Ecru')?.strandTenths).toBe(1.2 * metre)
})

it('gives each of the eight threads its status', () => {
  expect(cover.threads.map((thread) => [thread.threadId, thread.status])).toEqual([
    ['0311', 'enough'],
    ['Quillwater 12', 'enough'],
    ['Ecru', 'enough'],
    ['0742', 'short'],
    ['0087', 'elsewhere'],
    ['1204', 'swap'],
    ['Tarn Blue', 'lots'],
    ['0905', 'none'],
  ])
  expect(threadOf('0087')?.elsewhere).toMatchObject([{ placeId: 'K-07', why: 'out' }])
})

it('says ready 3 of 8, 1 swap, 1 out, 1 lot problem, 2 to buy', () => {
  expect(cover).toMatchObject({
    status: 'none',
    threadCount: 8,
    readyCount: 3,
    swapCount: 1,
    elsewhereCount: 1,
    unknownCount: 0,
    lotsCount: 1,
    shortPutUps: 2,
    lotPutUps: 2,
    isStitchable: false,
    isStitchableWithSwaps: false,
    toBuy: [
      { threadId: '0742', putUps: 1 },
      { threadId: '0905', putUps: 1 },
    ],
  })
})

it('says what to buy if the lots do not match by eye, or the swap is refused', () => {
  expect(threadOf('Tarn Blue')?.lotToBuy).toMatchObject({ lot: null, putUps: 2 })
  expect(threadOf('1204')).toMatchObject({ standInThreadId: '1211', shortPutUps: 1 })
})
