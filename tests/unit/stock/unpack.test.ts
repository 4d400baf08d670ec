import { expect, it } from 'vitest'
import type { Batch, StockPromise } from '#lib/stock/batch'
import { type BatchOutcome, planUnpack } from '#lib/stock/unpack'

const skein = 480_000

const inBag = (change: Partial<Batch> = {}): Batch => ({
  ...{ id: 'b1', threadId: '0311', ownerId: 'shop', lot: null, putUpWord: null, putUpStrandTenths: skein },
  ...{ wholePutUps: 2, partStrandTenths: 0, partCertainty: 'none', homePlaceId: 'T2.2-05', currentPlaceId: 'K-07' },
  ...change,
})

function unpack(
  batch: Batch,
  outcome: BatchOutcome['outcome'],
  more: Partial<BatchOutcome> & { promises?: StockPromise[]; freed?: string[]; mergeInto?: Batch; notFoundPlaceId?: string } = {},
) {
  const { promises = [], freed = [], mergeInto, notFoundPlaceId, ...said } = more
  return planUnpack({
    batches: [batch],
    promises,
    outcomes: [{ batchId: batch.id, projectId: null, ...said, outcome }],
    freedProjects: new Set(freed),
    ...(mergeInto && { mergeInto: new Map([[batch.id, mergeInto]]) }),
    notFoundPlaceId: notFoundPlaceId ?? null,
    walkRanks: new Map(),
    newBatchId: () => 'm1',
  })
}
function granted(result: ReturnType<typeof unpack>) {
  if (!result.ok) throw new Error(result.error.kind)
  return result.value
}

it('takes the missing put-up out first: of two skeins one is not there, of the other 0.8 is left', () => {
  const plan = granted(unpack(inBag(), { kind: 'left', strandTenths: 0.8 * skein, certainty: 'guess' }, { notThere: 1 }))
  expect(plan.check).toEqual({ pulled: 2, back: 1, usedUp: 0, missing: 1, stays: 0 })
  expect(plan.back).toMatchObject([{ batchId: 'b1', wholePutUps: 0, partStrandTenths: 0.8 * skein, partCertainty: 'guess' }])
  expect(plan.missing).toMatchObject([{ batchId: 'm1', putUps: 1 }])
})

it('corrects a guess that more is left of than was thought, up to one put-up, and refuses beyond', () => {
  const guessed = inBag({ wholePutUps: 0, partStrandTenths: 0.5 * skein, partCertainty: 'guess' })
  const more = granted(unpack(guessed, { kind: 'left', strandTenths: 0.75 * skein, certainty: 'measured' }))
  expect(more.change.movements).toMatchObject([{ kind: 'correct', partDeltaStrandTenths: 0.25 * skein }])
  expect(more.change.batches).toMatchObject([{ partStrandTenths: 0.75 * skein, partCertainty: 'measured' }])
  const refusalOf = (batch: Batch, left: number) => {
    const result = unpack(batch, { kind: 'left', strandTenths: left, certainty: 'measured' })
    return result.ok ? null : result.error.kind
  }
  expect(refusalOf(guessed, 1.1 * skein)).toBe('more-left-than-brought')
  expect(refusalOf(inBag(), 2.1 * skein)).toBe('more-left-than-brought')
})

it('measures a part of which only "some" was known', () => {
  const some = inBag({ wholePutUps: 0, partCertainty: 'some' })
  const plan = granted(unpack(some, { kind: 'left', strandTenths: 0.3 * skein, certainty: 'measured' }))
  expect(plan.check).toEqual({ pulled: 1, back: 1, usedUp: 0, missing: 0, stays: 0 })
  expect(plan.back).toMatchObject([{ partStrandTenths: 0.3 * skein, partCertainty: 'measured' }])
})

it('lets a project that used of it want no more than is left, frees the freed, and spares the others', () => {
  const promises = [
    { id: 'p1', batchId: 'b1', projectId: 'kettle', strandTenths: 1.5 * skein },
    { id: 'p2', batchId: 'b1', projectId: 'wrens', strandTenths: 0.2 * skein },
    { id: 'p3', batchId: 'b1', projectId: 'barge', strandTenths: 0.1 * skein },
  ]
  const left = { kind: 'left' as const, strandTenths: skein, certainty: 'measured' as const }
  const plan = granted(unpack(inBag(), left, { promises, freed: ['barge'], projectId: 'kettle' }))
  expect(plan.change.promises).toEqual([
    { batchId: 'b1', projectId: 'kettle', strandTenths: 0.5 * skein },
    { batchId: 'b1', projectId: 'barge', strandTenths: 0 },
  ])
})

it('sends the empty row home, laid with its like there', () => {
  const atHome = inBag({ id: 'home', currentPlaceId: 'T2.2-05', wholePutUps: 4 })
  const plan = granted(unpack(inBag(), { kind: 'used-up' }, { mergeInto: atHome }))
  expect(plan.usedUp).toEqual([{ threadId: '0311', lot: null, putUps: 2 }])
  expect(plan.change.batches).toMatchObject([
    { id: 'b1', isGone: true, wholePutUps: 0 },
    { id: 'home', wholePutUps: 4 },
  ])
})

it('leaves in the bag what is to stay and what has no home, and asks for what has none in the place for the not found', () => {
  expect(granted(unpack(inBag(), { kind: 'stays' })).check).toMatchObject({ stays: 2, back: 0 })
  expect(granted(unpack(inBag({ homePlaceId: null }), { kind: 'as-it-was' })).check).toMatchObject({ stays: 2, back: 0 })
  const lost = granted(unpack(inBag({ homePlaceId: null }), { kind: 'not-there' }, { notFoundPlaceId: 'not found' }))
  expect(lost.change.batches).toMatchObject([{ homePlaceId: 'K-07', currentPlaceId: 'not found' }])
})

it('refuses more missing than was brought, and all of it beside a leftover', () => {
  for (const [outcome, notThere] of [
    ['as-it-was', 3],
    ['used-up', 2],
  ] as const)
    expect(unpack(inBag(), { kind: outcome }, { notThere })).toMatchObject({ error: { kind: 'more-missing-than-brought' } })
  expect(granted(unpack(inBag(), { kind: 'as-it-was' }, { notThere: 2 })).check).toMatchObject({ missing: 2, back: 0 })
})
