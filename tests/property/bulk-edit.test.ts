import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Batch } from '#lib/stock/batch'
import { type BulkChange, type BulkStep, type BulkThread, planBulkEdit, planBulkUndo } from '#lib/stock/plan-bulk-edit'

const places = ['T2.1', 'T3.1', 'K-07']
const place = fc.constantFrom(null, ...places)
const threads = fc.uniqueArray(
  fc.record({
    id: fc.constantFrom('t1', 't2', 't3', 't4'),
    minimumPutUps: fc.option(fc.nat(5), { nil: null }),
    family: fc.constantFrom(null, 'green', 'blue'),
    isLeaving: fc.boolean(),
  }),
  { selector: ({ id }) => id, minLength: 1 },
)
const batches = fc.uniqueArray(
  fc
    .record({
      id: fc.constantFrom('b1', 'b2', 'b3', 'b4', 'b5', 'b6'),
      threadId: fc.constantFrom('t1', 't2', 't3', 't4'),
      ownerId: fc.constantFrom('shop', 'hanne'),
      lot: fc.constantFrom(null, 'A4', 'B1'),
      wholePutUps: fc.nat(3),
      homePlaceId: place,
      currentPlaceId: place,
      isPromised: fc.boolean(),
    })
    .map(({ isPromised, ...batch }) => ({
      batch: {
        ...batch,
        putUpWord: null,
        putUpStrandTenths: 480_000,
        partStrandTenths: 0,
        partCertainty: 'none',
      } satisfies Batch,
      isPromised,
    })),
  { selector: ({ batch }) => batch.id },
)
const change: fc.Arbitrary<BulkChange> = fc.oneof(
  fc.record({ kind: fc.constant('minimum' as const), putUps: fc.option(fc.nat(5), { nil: null }) }),
  fc.record({ kind: fc.constant('family' as const), family: fc.constantFrom(null, 'green') }),
  fc.record({ kind: fc.constant('leaving' as const), isLeaving: fc.boolean() }),
  fc.record({ kind: fc.constant('home' as const), toPlaceId: fc.constantFrom(...places) }),
  fc.record({ kind: fc.constant('owner' as const), toOwnerId: fc.constantFrom('shop', 'hanne') }),
  fc.record({ kind: fc.constant('lot' as const), lot: fc.constantFrom('A4', 'B1') }),
)

const byId = <T extends { id: string }>(items: readonly T[]) => new Map(items.map((item) => [item.id, item]))
const over = <T extends { id: string }>(before: readonly T[], after: readonly T[]) => ({
  ...Object.fromEntries(before.map((item) => [item.id, item])),
  ...Object.fromEntries(after.map((item) => [item.id, item])),
})
const asBatch = ({ isNew: _isNew, isGone: _isGone, parentId: _parentId, ...batch }: Batch & Record<string, unknown>): Batch =>
  batch as Batch

describe('a change of many threads', () => {
  it('moves no amount, leaves promised goods with their owner, and is undone to what was there before', () => {
    fc.assert(
      fc.property(threads, batches, change, (someThreads, someBatches, asked) => {
        const before = someBatches.map(({ batch }) => batch)
        const promises = someBatches.flatMap(({ batch, isPromised }) =>
          isPromised ? [{ id: `p ${batch.id}`, batchId: batch.id, projectId: 'k', strandTenths: 1 }] : [],
        )
        const plan = planBulkEdit({ change: asked, threads: someThreads, batches: before, promises, reason: 'r' })
        for (const { wholeDelta, partDeltaStrandTenths } of plan.stock.movements)
          expect([wholeDelta, partDeltaStrandTenths]).toEqual([0, 0])
        // One line of the journal for each batch that changes, and no batch twice.
        const changedIds = plan.stock.batches.map(({ id }) => id)
        expect(plan.stock.movements.map(({ batchId }) => batchId)).toEqual(changedIds)
        expect(new Set(changedIds).size).toBe(changedIds.length)

        const threadsAfter: Record<string, BulkThread> = over(someThreads, plan.threads)
        const batchesAfter: Record<string, Batch> = over(before, plan.stock.batches.map(asBatch))
        for (const { batchId } of promises) {
          const owner = before.find(({ id }) => id === batchId)?.ownerId
          expect(batchesAfter[batchId]?.ownerId).toBe(owner)
        }

        const steps = plan.lines.flatMap(({ threadId, batchId, before: was, outcome }): BulkStep[] =>
          outcome.kind === 'changes' ? [{ threadId, batchId, before: was, versionAfter: 1 }] : [],
        )
        const undo = planBulkUndo({
          change: asked,
          steps,
          threads: byId(Object.values(threadsAfter)),
          batches: byId(Object.values(batchesAfter)),
          versions: new Map(steps.map(({ threadId, batchId }) => [batchId ?? threadId, 1])),
          placeIds: new Set(places),
          reason: 'taken back',
        })
        expect(undo.left).toEqual([])
        expect(over(Object.values(threadsAfter), undo.threads)).toEqual(over(someThreads, []))
        expect(over(Object.values(batchesAfter), undo.stock.batches.map(asBatch))).toEqual(over(before, []))
      }),
      { seed: 20260907, numRuns: 200 },
    )
  })
})
