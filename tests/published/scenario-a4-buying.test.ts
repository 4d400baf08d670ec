import { expect, it } from 'vitest'
import { planBuyList, type ThreadStock } from '#lib/coverage/buy-list'
import type { ThreadNeed } from '#lib/coverage/need'
import type { Batch } from '#lib/stock/batch'

// Source: the project's trade notes, scenario A4 "Cover", worked by hand, its last sentence: 2 to buy (0742 x1, 0905 x1); if the lots do
// not match by eye, Tarn Blue x2 of one lot; if the swap is refused, 1204 x1. 0087 is held and out in bag K-07.

const skein = 480_000
const metre = 60_000
const fiveYards = 5 * 9_144 * 6
const cotton = { lotsMatter: false, putUpStrandTenths: skein }
const lines = new Map([
  ...['0311', 'Ecru', '0742', '0087', '1204', '1211', '0905'].map((code) => [code, cotton] as const),
  ['Quillwater 12', { lotsMatter: false, putUpStrandTenths: 500_000 }],
  ['Tarn Blue', { lotsMatter: true, putUpStrandTenths: fiveYards }],
])
const needs = Object.entries({
  '0311': 0.9 * skein,
  'Quillwater 12': 50_000,
  Ecru: 1.2 * metre,
  '0742': 2 * skein,
  '0087': skein,
  '1204': skein,
  'Tarn Blue': 2 * fiveYards,
  '0905': skein,
}).map(([threadId, strandTenths]): ThreadNeed => ({ threadId, strandTenths, leastStrandTenths: 0, certainty: 'label', from: [] }))

const held = (threadId: string, change: Partial<Batch> = {}): Batch => ({
  id: `${threadId} ${change.lot ?? ''}`,
  threadId,
  ownerId: 'own stash',
  lot: null,
  putUpWord: null,
  putUpStrandTenths: lines.get(threadId)?.putUpStrandTenths ?? 0,
  wholePutUps: 1,
  partStrandTenths: 0,
  partCertainty: 'none',
  homePlaceId: 'drawer',
  currentPlaceId: 'drawer',
  ...change,
})
const stock = new Map<string, ThreadStock>(
  [
    [held('0311', { wholePutUps: 2 })],
    [held('Ecru', { wholePutUps: 0, partStrandTenths: 2.5 * metre, partCertainty: 'measured' })],
    [held('Quillwater 12')],
    [held('0742')],
    [held('0087', { currentPlaceId: 'K-07' })],
    [held('1211')],
    [held('Tarn Blue', { lot: '18' }), held('Tarn Blue', { lot: '22' })],
  ].map((batches) => [batches[0]?.threadId as string, { batches, promises: [] }]),
)

it('says what to buy for Kettle at Wend Cross, and what only if something at hand will not do', () => {
  const list = planBuyList({
    wants: [{ key: 'Kettle at Wend Cross', projectId: null, needs }],
    stock,
    toCome: new Map(),
    lines,
    standIns: new Map([['1204', ['1211']]]),
    ownerIds: ['own stash'],
  })
  expect(Object.fromEntries(list.map(({ threadId, standing, putUps }) => [threadId, [standing, putUps]]))).toEqual({
    '0311': ['covered', 0],
    'Quillwater 12': ['covered', 0],
    Ecru: ['covered', 0],
    '0742': ['buy', 1],
    '0905': ['buy', 1],
    '0087': ['out', 1],
    '1204': ['swap', 1],
    'Tarn Blue': ['lots', 2],
  })
  expect(list.find(({ threadId }) => threadId === 'Tarn Blue')?.sameLot).toMatchObject({ lot: null, newLotPutUps: 2 })
})
