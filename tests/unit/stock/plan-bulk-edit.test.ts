import { describe, expect, it } from 'vitest'
import type { Batch } from '#lib/stock/batch'
import { type BulkChange, type BulkStep, type BulkThread, planBulkEdit, planBulkUndo } from '#lib/stock/plan-bulk-edit'
import { aBatch } from './batches'

const aThread = (id: string, over: Partial<BulkThread> = {}): BulkThread => ({
  id,
  minimumPutUps: null,
  family: null,
  isLeaving: false,
  ...over,
})

const batch = (id: string, over: Partial<Batch> = {}) =>
  aBatch({ id, threadId: 't1', homePlaceId: 'T2.1', currentPlaceId: 'T2.1', ...over })

const plan = (change: BulkChange, batches: Batch[] = [], threads = [aThread('t1')], promises: { batchId: string }[] = []) =>
  planBulkEdit({
    change,
    threads,
    batches,
    promises: promises.map(({ batchId }, at) => ({ id: `p${at}`, batchId, projectId: `project ${at}`, strandTenths: 1 })),
    reason: 'New home T3.1',
  })

describe('planBulkEdit', () => {
  it('sets the least to keep where it is another, and says where it is so already', () => {
    const { lines, threads, stock } = plan(
      { kind: 'minimum', putUps: 2 },
      [],
      [aThread('t1', { minimumPutUps: 1 }), aThread('t2', { minimumPutUps: 2 }), aThread('t3')],
    )
    expect(lines.map(({ threadId, before, outcome }) => [threadId, before, outcome.kind])).toEqual([
      ['t1', 1, 'changes'],
      ['t2', 2, 'same'],
      ['t3', null, 'changes'],
    ])
    expect(threads).toEqual([aThread('t1', { minimumPutUps: 2 }), aThread('t3', { minimumPutUps: 2 })])
    expect(stock).toEqual({ batches: [], movements: [], promises: [] })
  })

  it('takes along what lies at the old home', () => {
    const { lines, stock } = plan({ kind: 'home', toPlaceId: 'T3.1' }, [batch('b1')])
    expect(lines).toEqual([
      {
        threadId: 't1',
        batchId: 'b1',
        before: { homePlaceId: 'T2.1', currentPlaceId: 'T2.1' },
        isOut: false,
        outcome: { kind: 'changes' },
      },
    ])
    expect(stock.batches).toMatchObject([{ id: 'b1', homePlaceId: 'T3.1', currentPlaceId: 'T3.1' }])
    expect(stock.movements).toMatchObject([{ kind: 'move', fromPlaceId: 'T2.1', toPlaceId: 'T3.1', wholeDelta: 0 }])
  })

  it('gives what is out in a bag its new home, and leaves it in the bag', () => {
    const { lines, stock } = plan({ kind: 'home', toPlaceId: 'T3.1' }, [batch('b1', { currentPlaceId: 'K-07' })])
    expect(lines).toMatchObject([{ isOut: true, outcome: { kind: 'changes' } }])
    expect(stock.batches).toMatchObject([{ homePlaceId: 'T3.1', currentPlaceId: 'K-07' }])
  })

  it('passes on nothing that is promised, that is used up, or that is theirs already', () => {
    const { lines, stock } = plan(
      { kind: 'owner', toOwnerId: 'hanne' },
      [batch('b1'), batch('b2'), batch('b3', { wholePutUps: 0 }), batch('b4', { ownerId: 'hanne' })],
      [aThread('t1')],
      [{ batchId: 'b2' }],
    )
    expect(lines.map(({ batchId, outcome }) => [batchId, outcome])).toEqual([
      ['b1', { kind: 'changes' }],
      ['b2', { kind: 'refused', why: { kind: 'promised', projectIds: ['project 0'] } }],
      ['b3', { kind: 'refused', why: { kind: 'nothing-held' } }],
      ['b4', { kind: 'same' }],
    ])
    expect(stock.movements).toMatchObject([{ batchId: 'b1', kind: 'transfer', fromOwnerId: 'shop', toOwnerId: 'hanne' }])
  })

  it('marks a lot only where none is marked', () => {
    const { lines } = plan({ kind: 'lot', lot: 'A4' }, [batch('b1'), batch('b2', { lot: 'B1' }), batch('b3', { lot: 'A4' })])
    expect(lines.map(({ outcome }) => outcome)).toEqual([
      { kind: 'changes' },
      { kind: 'refused', why: { kind: 'has-lot', lot: 'B1' } },
      { kind: 'same' },
    ])
  })

  it('names a thread of which nothing is held', () => {
    expect(plan({ kind: 'home', toPlaceId: 'T3.1' }).lines).toMatchObject([
      { threadId: 't1', batchId: null, outcome: { kind: 'refused', why: { kind: 'no-stock' } } },
    ])
  })
})

describe('planBulkUndo', () => {
  const step = (over: Partial<BulkStep>): BulkStep => ({
    threadId: 't1',
    batchId: 'b1',
    before: { homePlaceId: 'T2.1', currentPlaceId: 'T2.1' },
    versionAfter: 5,
    ...over,
  })
  const undo = (change: BulkChange, steps: BulkStep[], batches: Batch[], version = 5) =>
    planBulkUndo({
      change,
      steps,
      threads: new Map([['t1', aThread('t1', { minimumPutUps: 4 })]]),
      batches: new Map(batches.map((batch) => [batch.id, batch])),
      versions: new Map([['t1', version], ...batches.map((batch) => [batch.id, version] as const)]),
      placeIds: new Set(['T2.1', 'T3.1']),
      reason: 'taken back',
    })
  const home: BulkChange = { kind: 'home', toPlaceId: 'T3.1' }

  it('puts a batch back where it lived', () => {
    const { left, stock } = undo(home, [step({})], [batch('b1', { homePlaceId: 'T3.1', currentPlaceId: 'T3.1' })])
    expect(left).toEqual([])
    expect(stock.batches).toMatchObject([{ homePlaceId: 'T2.1', currentPlaceId: 'T2.1' }])
    expect(stock.movements).toMatchObject([{ kind: 'undo', fromPlaceId: 'T3.1', toPlaceId: 'T2.1' }])
  })

  it('leaves alone what was changed since, what is gone, and what lived in a place that is gone', () => {
    expect(undo(home, [step({})], [batch('b1')], 6).left).toMatchObject([{ why: 'changed-since' }])
    expect(undo(home, [step({ batchId: 'b9' })], []).left).toMatchObject([{ batchId: 'b9', why: 'gone' }])
    const lost = step({ before: { homePlaceId: 'gone', currentPlaceId: null } })
    expect(undo(home, [lost], [batch('b1')]).left).toMatchObject([{ why: 'place-gone' }])
  })

  it('gives a thread its old least back', () => {
    const { threads } = undo({ kind: 'minimum', putUps: 4 }, [step({ batchId: null, before: 1 })], [])
    expect(threads).toEqual([aThread('t1', { minimumPutUps: 1 })])
  })
})
