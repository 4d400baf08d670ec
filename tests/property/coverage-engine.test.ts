import fc from 'fast-check'
import { expect, it } from 'vitest'
import { missingAt } from '#lib/coverage/answer-words'
import { compareAnswers, coverDesign } from '#lib/coverage/design-cover'
import { CoverageEngine, type EngineThread } from '#lib/coverage/engine'
import { statusRanks } from '#lib/coverage/line-status'
import type { ThreadNeed } from '#lib/coverage/need'
import type { ListNeeds } from '#lib/coverage/need-columns'
import type { Batch, StockPromise } from '#lib/stock/batch'
import { type FreeStock, freeStock } from '#lib/stock/free-stock'

const settings = { seed: 20260907, numRuns: 200 }
const skein = 10

const threadIds = ['t0', 't1', 't2', 't3', 't4', 't5']
const threadId = fc.constantFrom(...threadIds)

const stockOf = (id: string) =>
  fc
    .array(
      fc.record({
        lot: fc.constantFrom(null, '18', '22'),
        wholePutUps: fc.integer({ min: 0, max: 3 }),
        part: fc.constantFrom([0, 'none'], [4, 'guess'], [7, 'measured'], [0, 'some']),
        isOut: fc.boolean(),
        promised: fc.integer({ min: 0, max: 8 }),
      }),
      { maxLength: 3 },
    )
    .map((rows): FreeStock => {
      const batches = rows.map(
        ({ part: [partStrandTenths, partCertainty], isOut, lot, wholePutUps }, index): Batch => ({
          id: `${id} ${index}`,
          threadId: id,
          ownerId: 'shop',
          lot,
          putUpWord: null,
          putUpStrandTenths: skein,
          wholePutUps,
          partStrandTenths: partStrandTenths as number,
          partCertainty: partCertainty as Batch['partCertainty'],
          homePlaceId: 'drawer',
          currentPlaceId: isOut ? 'K-07' : 'drawer',
        }),
      )
      const promises = rows.flatMap(({ promised }, index): StockPromise[] =>
        promised === 0 ? [] : [{ id: `p${index}`, batchId: `${id} ${index}`, projectId: 'rooks', strandTenths: promised }],
      )
      return freeStock({ threadId: id, batches, promises, ownerIds: ['shop'] })
    })

const aThread = (id: string): fc.Arbitrary<EngineThread> =>
  fc.record({
    threadId: fc.constant(id),
    lotsMatter: fc.boolean(),
    putUpStrandTenths: fc.constantFrom(skein, 6),
    standInThreadIds: fc.uniqueArray(threadId, { maxLength: 2 }),
  })

const aList = (listId: fc.Arbitrary<string>): fc.Arbitrary<ListNeeds> =>
  fc.record({
    listId,
    designId: fc.constantFrom('d0', 'd1', 'd2'),
    isIncomplete: fc.boolean(),
    needs: fc.uniqueArray(fc.record({ threadId, strandTenths: fc.integer({ min: 1, max: 35 }) }), {
      selector: (need) => need.threadId,
      maxLength: 6,
    }),
  })

const listId = fc.integer({ min: 0, max: 7 }).map((n) => `l${n}`)
const world = fc.record({
  threads: fc.tuple(...threadIds.map(aThread)),
  stock: fc.tuple(...threadIds.map(stockOf)),
  lists: fc.uniqueArray(aList(listId), { selector: (list) => list.listId, maxLength: 6 }),
})
const change = fc.oneof(
  threadId.chain(stockOf).map((free) => ({ kind: 'stock' as const, free })),
  aList(listId).map((list) => ({ kind: 'list' as const, list })),
  listId.map((id) => ({ kind: 'remove' as const, id })),
  threadId.chain(aThread).map((thread) => ({ kind: 'thread' as const, thread })),
)

type World = { threads: EngineThread[]; stock: FreeStock[]; lists: ListNeeds[] }

/** The slow, obvious way: every list asked on its own. */
function askEach({ threads, stock, lists }: World) {
  return lists.map((list) => {
    const needs = list.needs.map(
      (need): ThreadNeed => ({ ...need, leastStrandTenths: need.strandTenths, certainty: 'measured', from: [] }),
    )
    const {
      threads: _,
      toBuy: __,
      ...answer
    } = coverDesign({
      needs,
      free: new Map(stock.map((free) => [free.threadId, free])),
      lines: new Map(threads.map((thread) => [thread.threadId, thread])),
      standIns: new Map(threads.map((thread) => [thread.threadId, thread.standInThreadIds])),
      isIncomplete: list.isIncomplete,
    })
    return { ...answer, listId: list.listId, designId: list.designId }
  })
}

function expectSameAnswers(engine: CoverageEngine, world: World) {
  const asked = askEach(world)
  expect(engine.index.listCount).toBe(world.lists.length)
  const { rowOf, rankAt, buyPutUpsAt, readinessOfRank } = engine.designs
  for (const designId of ['d0', 'd1', 'd2']) {
    const own = asked
      .filter((answer) => answer.designId === designId)
      .map(({ designId: _, ...answer }) => answer)
      .sort((a, b) => compareAnswers(a, b) || (a.listId < b.listId ? -1 : 1))
    const best = own[0]
    expect(engine.answerFor(designId)).toEqual(best ? { designId, best, lists: own } : null)
    const row = rowOf(designId)
    expect(row === -1).toBe(!best)
    if (!best) continue
    expect(rankAt(row)).toBe(statusRanks[best.status])
    expect(readinessOfRank[rankAt(row)]).toBe(best.isStitchable ? 2 : best.isStitchableWithSwaps ? 1 : 0)
    expect(buyPutUpsAt(row)).toBe(best.shortPutUps + best.lotPutUps)
    expect(missingAt(engine.words, row)).toBe(best.threadCount - best.readyCount)
  }
  for (const id of threadIds) {
    const users = new Set(
      world.lists.filter((list) => list.needs.some((need) => need.threadId === id)).map((list) => list.designId),
    )
    expect(engine.designsUsing(id).sort()).toEqual([...users].sort())
  }
}

it('answers every list as asking it alone does, whatever the order of the input', () => {
  fc.assert(
    fc.property(world, (input) => {
      expectSameAnswers(CoverageEngine.of(input), input)
      const reversed = {
        threads: [...input.threads].reverse(),
        stock: [...input.stock].reverse(),
        lists: [...input.lists].reverse().map((list) => ({ ...list, needs: [...list.needs].reverse() })),
      }
      expectSameAnswers(CoverageEngine.of(reversed), input)
    }),
    settings,
  )
})

it('says after any changes what a rebuilt one says', () => {
  fc.assert(
    fc.property(world, fc.array(change, { maxLength: 400, size: 'max' }), (input, changes) => {
      const now: World = { threads: [...input.threads], stock: [...input.stock], lists: [...input.lists] }
      const engine = CoverageEngine.of(input)
      changes.forEach((one, index) => {
        if (one.kind === 'stock') {
          now.stock = [...now.stock.filter((free) => free.threadId !== one.free.threadId), one.free]
          if (index % 2 === 0) engine.setThreadStock(one.free.threadId, one.free)
          else engine.setStock([one.free])
        } else if (one.kind === 'thread') {
          now.threads = now.threads.map((thread) => (thread.threadId === one.thread.threadId ? one.thread : thread))
          engine.setThread(one.thread)
        } else if (one.kind === 'list') {
          const moved = now.lists.find((list) => list.listId === one.list.listId && list.designId !== one.list.designId)
          if (moved) engine.removeList(moved.designId, moved.listId)
          now.lists = [...now.lists.filter((list) => list.listId !== one.list.listId), one.list]
          engine.setList(one.list)
        } else {
          for (const { designId } of now.lists.filter((list) => list.listId === one.id)) engine.removeList(designId, one.id)
          now.lists = now.lists.filter((list) => list.listId !== one.id)
        }
        if (index % 20 === 0) expectSameAnswers(engine, now)
      })
      expectSameAnswers(engine, now)
    }),
    { ...settings, numRuns: 60 },
  )
})
