import { expect, it } from 'vitest'
import { walkRanks } from '#lib/place/walk-order'
import { planFinish } from '#lib/project/plan-finish'
import type { Batch } from '#lib/stock/batch'
import { type BatchOutcome, planUnpack, type UnpackOutcome } from '#lib/stock/unpack'

// Source: the project's trade notes, scenario A9 "Put-back list", worked by hand. Bag K-07 unpacked, 8 units pulled: 0087 x1, 0311 x2,
// Ecru x1, Tarn Blue lot 18 x2, Quillwater 12 x1, 1204 x1. Used: 0087 0.3; 0311 1.2; Ecru 1.0; Tarn Blue 1.5; 1204 not in the bag. Put
// back in walking order: 0087 part 0.7 -> T2.1-14; 0311 part 0.8 -> T2.2-05; Quillwater 12 part -> T4.3-01; Tarn Blue part 0.5 lot 18 ->
// T10.1-03. Used up: 0311 x1, Ecru x1, Tarn Blue x1. Missing 1: 1204, stays out, last seen K-07. Check 4 + 3 + 1 = 8.
// How much Quillwater was used is not said; 2 m of 50 here.

const skein = 480_000
const fiveYards = 5 * 9_144 * 6
const metre = 10_000

const labels = ['T10.1-03', 'T2.1-14', 'T2.2-05', 'T2.3-01', 'T3.1-01', 'T4.3-01', 'K-07']
const ranks = walkRanks(
  labels.map((label) => ({
    id: label,
    label,
    name: null,
    kind: 'drawer',
    parentId: null,
    path: `/${label}/`,
    walkOrder: null,
    capacity: null,
  })),
)
const pulled = (threadId: string, homePlaceId: string, wholePutUps: number, change: Partial<Batch> = {}): Batch => ({
  id: `out ${threadId}`,
  threadId,
  ownerId: 'shop',
  lot: null,
  putUpWord: null,
  putUpStrandTenths: skein,
  wholePutUps,
  partStrandTenths: 0,
  partCertainty: 'none',
  homePlaceId,
  currentPlaceId: 'K-07',
  ...change,
})
const batches = [
  pulled('0087', 'T2.1-14', 1),
  pulled('0311', 'T2.2-05', 2),
  pulled('Ecru', 'T2.3-01', 1),
  pulled('Tarn Blue', 'T10.1-03', 2, { lot: '18', putUpStrandTenths: fiveYards }),
  pulled('Quillwater 12', 'T4.3-01', 1, { putUpStrandTenths: 50 * metre }),
  pulled('1204', 'T3.1-01', 1),
]
const used = new Map([
  ['0087', 0.3 * skein],
  ['0311', 1.2 * skein],
  ['Ecru', skein],
  ['Tarn Blue', 1.5 * fiveYards],
  ['Quillwater 12', 2 * metre],
])

it('says what goes back where, what is used up and what is missing', () => {
  const plan = planFinish({
    projectId: 'kettle',
    batches,
    promises: [],
    needs: [],
    used,
    missingBatchIds: ['out 1204'],
    walkRanks: ranks,
  })
  if (!plan.ok) throw new Error('refused')
  expect(plan.value.putBack.map((row) => [row.threadId, row.lot, row.placeId, row.wholePutUps, row.partStrandTenths])).toEqual([
    ['0087', null, 'T2.1-14', 0, 0.7 * skein],
    ['0311', null, 'T2.2-05', 0, 0.8 * skein],
    ['Quillwater 12', null, 'T4.3-01', 0, 48 * metre],
    ['Tarn Blue', '18', 'T10.1-03', 0, 0.5 * fiveYards],
  ])
  expect(plan.value.usedUp).toEqual([
    { threadId: '0311', putUps: 1 },
    { threadId: 'Ecru', putUps: 1 },
    { threadId: 'Tarn Blue', putUps: 1 },
  ])
  expect(plan.value.missing).toEqual([{ batchId: 'out 1204', threadId: '1204', lastSeenPlaceId: 'K-07', putUps: 1 }])
  expect(plan.value.check).toEqual({ pulled: 8, back: 4, usedUp: 3, missing: 1 })
  expect(plan.value.change.batches.some((batch) => batch.threadId === '1204')).toBe(false)
})

it('says the same when the bag is unpacked batch by batch, and leaves it in the bag until it is ticked home', () => {
  const left = (strandTenths: number): UnpackOutcome => ({ kind: 'left', strandTenths, certainty: 'measured' })
  const outcomes: BatchOutcome[] = (
    [
      ['0087', left(0.7 * skein)],
      ['0311', left(0.8 * skein)],
      ['Ecru', { kind: 'used-up' }],
      ['Tarn Blue', left(0.5 * fiveYards)],
      ['Quillwater 12', left(48 * metre)],
      ['1204', { kind: 'not-there' }],
    ] as const
  ).map(([threadId, outcome]) => ({ batchId: `out ${threadId}`, outcome, projectId: 'kettle' }))
  const plan = planUnpack({ batches, promises: [], outcomes, walkRanks: ranks, newBatchId: () => 'parted off' })
  if (!plan.ok) throw new Error('refused')
  const { back, usedUp, missing, stays, check, change } = plan.value
  expect(back.map((row) => [row.threadId, row.lot, row.homePlaceId, row.wholePutUps, row.partStrandTenths])).toEqual([
    ['0087', null, 'T2.1-14', 0, 0.7 * skein],
    ['0311', null, 'T2.2-05', 0, 0.8 * skein],
    ['Quillwater 12', null, 'T4.3-01', 0, 48 * metre],
    ['Tarn Blue', '18', 'T10.1-03', 0, 0.5 * fiveYards],
  ])
  expect(usedUp).toEqual([
    { threadId: '0311', lot: null, putUps: 1 },
    { threadId: 'Ecru', lot: null, putUps: 1 },
    { threadId: 'Tarn Blue', lot: '18', putUps: 1 },
  ])
  expect(missing).toEqual([{ batchId: 'out 1204', threadId: '1204', projectId: 'kettle', putUps: 1 }])
  expect(stays).toEqual([])
  expect(check).toEqual({ pulled: 8, back: 4, usedUp: 3, missing: 1, stays: 0 })
  const whereNow = new Map(change.batches.map((batch) => [batch.threadId, batch.currentPlaceId]))
  // Ecru's empty row goes home by itself; 1204 is not touched and so is out, last seen in K-07.
  expect([whereNow.get('0087'), whereNow.get('Tarn Blue'), whereNow.get('Ecru'), whereNow.has('1204')]).toEqual([
    ...['K-07', 'K-07', 'T2.3-01', false],
  ])
  const used = (threadId: string) =>
    change.movements
      .filter(({ kind, batchId }) => kind === 'use' && batchId === `out ${threadId}`)
      .map(({ projectId }) => projectId)
  expect([used('0311'), used('Quillwater 12'), used('1204')]).toEqual([['kettle'], ['kettle'], []])
})

it('lists the leftovers of a finished project to be ticked, instead of asserting that they are home', () => {
  const listed = planFinish({
    ...{ projectId: 'kettle', batches, promises: [], needs: [], used, missingBatchIds: ['out 1204'], walkRanks: ranks },
    returns: 'listed',
  })
  if (!listed.ok) throw new Error('refused')
  expect(listed.value.putBack.map(({ placeId }) => placeId)).toEqual(['T2.1-14', 'T2.2-05', 'T4.3-01', 'T10.1-03'])
  expect(listed.value.check).toEqual({ pulled: 8, back: 4, usedUp: 3, missing: 1 })
  const stillInBag = listed.value.change.batches.filter(({ currentPlaceId }) => currentPlaceId === 'K-07')
  expect(stillInBag.map(({ threadId }) => threadId).sort()).toEqual(['0087', '0311', 'Quillwater 12', 'Tarn Blue'])
})
