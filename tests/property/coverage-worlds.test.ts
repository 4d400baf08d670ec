import fc from 'fast-check'
import { expect, it } from 'vitest'
import { CoverageEngine, type EngineThread } from '#lib/coverage/engine'
import { figuresOf } from '#lib/coverage/line-status'
import type { ListNeeds } from '#lib/coverage/need-columns'
import { NeedIndexBuilder } from '#lib/coverage/need-index'
import { stockFigures } from '#lib/coverage/stock-figures'
import type { Result } from '#lib/result'
import type { Batch, StockPromise } from '#lib/stock/batch'
import { freeStock } from '#lib/stock/free-stock'
import { planCorrect, planReceive, planUse } from '#lib/stock/plan-amounts'
import { planSplit, planTransfer } from '#lib/stock/plan-batches'
import { planMove, planReturn, planTake } from '#lib/stock/plan-place'
import { planPromise, planRelease } from '#lib/stock/plan-promise'
import type { StockChange } from '#lib/stock/stock-change'

const settings = { seed: 20261125, numRuns: 2_000 }
const skein = 10
const threadIds = ['t0', 't1', 't2', 't3']
const owners = ['home', 'shop']
const ownerSets = [['home'], ['shop'], ['home', 'shop']]

type World = { threads: EngineThread[]; batches: Batch[]; promises: StockPromise[]; lists: ListNeeds[] }

const aBatch = fc
  .record({
    threadId: fc.constantFrom(...threadIds),
    ownerId: fc.constantFrom(...owners),
    lot: fc.constantFrom(null, '18', '22'),
    wholePutUps: fc.integer({ min: 0, max: 3 }),
    part: fc.constantFrom([0, 'none'], [4, 'guess'], [7, 'measured'], [0, 'some']),
    isOut: fc.boolean(),
    promised: fc.array(fc.integer({ min: 1, max: 8 }), { maxLength: 2 }),
  })
  .map(({ part: [partStrandTenths, partCertainty], isOut, promised, ...rest }) => ({
    promised,
    batch: {
      ...{ ...rest, id: '', putUpWord: null, putUpStrandTenths: skein, homePlaceId: 'drawer' },
      currentPlaceId: isOut ? 'K-07' : 'drawer',
      partStrandTenths: partStrandTenths as number,
      partCertainty: partCertainty as Batch['partCertainty'],
    },
  }))

const aList = fc.record({
  designId: fc.constantFrom('d0', 'd1', 'd2'),
  isIncomplete: fc.boolean(),
  needs: fc.uniqueArray(fc.record({ threadId: fc.constantFrom(...threadIds), strandTenths: fc.integer({ min: 1, max: 45 }) }), {
    selector: (need) => need.threadId,
    maxLength: 4,
  }),
})

const aWorld: fc.Arbitrary<World> = fc
  .record({
    lotsMatter: fc.array(fc.boolean(), { minLength: 4, maxLength: 4 }),
    rows: fc.array(aBatch, { maxLength: 8 }),
    lists: fc.array(aList, { maxLength: 5 }),
  })
  .map(({ lotsMatter, rows, lists }) => ({
    threads: threadIds.map((threadId, i) => ({
      ...{ threadId, lotsMatter: lotsMatter[i] as boolean },
      ...{ putUpStrandTenths: skein, standInThreadIds: [] },
    })),
    batches: rows.map(({ batch }, i) => ({ ...batch, id: `b${i}` })),
    promises: rows.flatMap(({ promised }, i) =>
      promised.map((strandTenths, j) => ({ id: `p${i}${j}`, batchId: `b${i}`, projectId: `project ${j}`, strandTenths })),
    ),
    lists: lists.map((list, i) => ({ ...list, listId: `l${i}` })),
  }))

/**
 * What the trade says, thread by thread and with no thought for speed: each skein of these owners is taken off once, for being out or
 * else for being promised; one lot has it, or several have it, or it is elsewhere, or nobody knows, or it is to be bought.
 */
function askSlowly(world: World, ownerIds: readonly string[], list: ListNeeds) {
  const statuses: string[] = []
  let putUps = 0
  for (const need of list.needs) {
    const thread = world.threads.find(({ threadId }) => threadId === need.threadId) as EngineThread
    const freeOfLot = new Map<string, number>()
    const ownedOfLot = new Map<string, number>()
    let isSomeAtHome = false
    for (const batch of world.batches) {
      if (batch.threadId !== need.threadId || !ownerIds.includes(batch.ownerId)) continue
      const isOut = batch.currentPlaceId !== 'drawer'
      const owned = batch.wholePutUps * skein + batch.partStrandTenths
      let promised = 0
      for (const promise of world.promises) if (promise.batchId === batch.id) promised += promise.strandTenths
      const lot = batch.lot ?? `unmarked ${batch.id}`
      ownedOfLot.set(lot, (ownedOfLot.get(lot) ?? 0) + owned)
      freeOfLot.set(lot, (freeOfLot.get(lot) ?? 0) + (isOut ? 0 : Math.max(0, owned - promised)))
      if (batch.partCertainty === 'some' && !isOut) isSomeAtHome = true
    }
    const sum = (lots: Map<string, number>) => [...lots.values()].reduce((total, length) => total + length, 0)
    const most = (lots: Map<string, number>) => Math.max(0, ...lots.values())
    const [free, owned] = [sum(freeOfLot), sum(ownedOfLot)]
    const needed = need.strandTenths
    let status = 'none'
    if (most(freeOfLot) >= needed) status = 'enough'
    else if (!thread.lotsMatter && free >= needed) status = needed > skein ? 'mixed' : 'enough'
    else if (isSomeAtHome) status = 'unknown'
    else if (!thread.lotsMatter && owned >= needed) status = 'elsewhere'
    else if (thread.lotsMatter && most(ownedOfLot) >= needed) status = 'elsewhere'
    else if (thread.lotsMatter && owned >= needed) status = 'lots'
    else if (free > 0) status = 'short'
    statuses.push(status)
    let held = free
    if (thread.lotsMatter) {
      held = 0
      for (const [lot, length] of freeOfLot) if (!lot.startsWith('unmarked') && length > held) held = length
    }
    if (status === 'lots') held = 0
    if (status === 'lots' || status === 'short' || status === 'none') {
      while (held < needed) {
        held += skein
        putUps++
      }
    }
  }
  const isReady = (status: string) => status === 'enough' || status === 'mixed'
  const order = ['none', 'short', 'lots', 'elsewhere', 'unknown', 'mixed', 'enough']
  const best = list.needs.length === 0 || list.isIncomplete ? ['unknown'] : ['enough']
  return {
    status: order.find((status) => [...statuses, ...best].includes(status)),
    threadCount: statuses.length,
    readyCount: statuses.filter(isReady).length,
    putUps,
    isStitchable: list.needs.length > 0 && !list.isIncomplete && statuses.every(isReady),
  }
}

const freeOf = (world: World, threadId: string, ownerIds: readonly string[]) =>
  freeStock({
    ...{ threadId, ownerIds, promises: world.promises },
    batches: world.batches.filter((batch) => batch.threadId === threadId),
  })

it('has the same figures of a thread with where everything is and without', () => {
  fc.assert(
    fc.property(aWorld, (world) => {
      for (const ownerIds of ownerSets) {
        for (const threadId of threadIds) {
          const batches = world.batches.filter((batch) => batch.threadId === threadId)
          const { threadId: _, ...figures } = stockFigures({ threadId, batches, promises: world.promises, ownerIds })
          expect(figures).toEqual(figuresOf(freeOf(world, threadId, ownerIds)))
        }
      }
    }),
    settings,
  )
})

function enginesOf(world: World) {
  const builder = new NeedIndexBuilder(threadIds)
  for (const list of world.lists) builder.add(list)
  const index = builder.finish()
  return ownerSets.map((ownerIds) => ({
    ownerIds,
    engine: new CoverageEngine({
      ...{ index, threads: world.threads },
      stock: threadIds.map((threadId) => freeOf(world, threadId, ownerIds)),
    }),
  }))
}

function expectSlowAnswers(world: World, engines: ReturnType<typeof enginesOf>) {
  for (const { ownerIds, engine } of engines) {
    const { rowOf, rankAt, buyPutUpsAt } = engine.designs
    for (const list of world.lists) {
      const answers = engine.answerFor(list.designId)
      const answer = answers?.lists.find(({ listId }) => listId === list.listId)
      const { putUps, ...slow } = askSlowly(world, ownerIds, list)
      expect(answer).toMatchObject(slow)
      expect((answer?.shortPutUps ?? 0) + (answer?.lotPutUps ?? 0)).toBe(putUps)
      if (answers?.lists.length !== 1) continue
      const row = rowOf(list.designId)
      expect(buyPutUpsAt(row)).toBe(putUps)
      expect(['none', 'short', 'lots', 'elsewhere', 'unknown', 'swap', 'mixed', 'enough'][rankAt(row)]).toBe(slow.status)
    }
  }
}

it('says of every list, for each owner and for both, what going through batches and promises one by one says', () => {
  fc.assert(
    fc.property(aWorld, (world) => expectSlowAnswers(world, enginesOf(world))),
    settings,
  )
})

const aMovement = fc.record({
  kind: fc.constantFrom('receive', 'use', 'move', 'take', 'return', 'transfer', 'split', 'correct', 'promise', 'release'),
  which: fc.nat(),
  length: fc.integer({ min: 1, max: 25 }),
  projectId: fc.constantFrom('project 0', 'project 1'),
  lot: fc.constantFrom(null, '18', '22'),
})
type Movement = typeof aMovement extends fc.Arbitrary<infer T> ? T : never

const noChange: StockChange = { batches: [], movements: [], promises: [] }
const changeOf = (planned: Result<StockChange, unknown>): StockChange => (planned.ok ? planned.value : noChange)

/** What the planners make of one movement; a refused one changes nothing. */
function plan(
  batch: Batch,
  promises: readonly StockPromise[],
  { kind, which, length, projectId, lot }: Movement,
  newBatchId: string,
) {
  const asked = { promises, newBatchId }
  switch (kind) {
    case 'receive':
      return changeOf(
        planReceive({ goods: { ...batch, lot, wholePutUps: (length % 3) + 1, currentPlaceId: 'drawer' }, newBatchId }),
      )
    case 'use':
      return changeOf(planUse(batch, { ...asked, strandTenths: length, projectId }))
    case 'move':
      return changeOf(planMove(batch, { toPlaceId: which % 2 === 0 ? 'K-07' : 'drawer', becomesHome: false }))
    case 'take':
      return changeOf(
        planTake(batch, { ...asked, wholePutUps: length % 3, takesPart: length % 3 === 0, toPlaceId: 'K-08', projectId }),
      )
    case 'return':
      return changeOf(planReturn(batch, { promises, projectId }))
    case 'transfer':
      return changeOf(planTransfer(batch, { promises, toOwnerId: owners[length % 2] as string }))
    case 'split':
      return changeOf(planSplit(batch, { ...asked, wholePutUps: length % 3, takesPart: length % 3 === 0 }))
    case 'correct':
      return changeOf(
        planCorrect(batch, { wholePutUps: length % 4, partStrandTenths: 0, partCertainty: 'none', reason: 'counted' }),
      )
    case 'promise': {
      const promised = planPromise(batch, { projectId, strandTenths: length }, promises)
      return promised.ok ? { ...noChange, promises: [promised.value] } : noChange
    }
    case 'release':
      return { ...noChange, promises: planRelease(promises, projectId) }
  }
}

/** @returns the threads it touched */
function move(world: World, movement: Movement, turn: number): string[] {
  const batch = world.batches[movement.which % Math.max(1, world.batches.length)]
  if (!batch) return []
  const promises = world.promises.filter(({ batchId }) => batchId === batch.id)
  return take(world, plan(batch, promises, movement, `new ${turn}`), turn)
}

function take(world: World, change: StockChange, turn: number): string[] {
  const touched = new Set<string>()
  for (const after of change.batches) {
    touched.add(after.threadId)
    const before = world.batches.find(({ id }) => id === after.id)
    if (before) touched.add(before.threadId)
    world.batches = world.batches.filter(({ id }) => id !== after.id)
    if (!after.isGone) world.batches.push(after)
  }
  for (const promise of change.promises) {
    world.promises = world.promises.filter(
      ({ batchId, projectId }) => batchId !== promise.batchId || projectId !== promise.projectId,
    )
    if (promise.strandTenths > 0) world.promises.push({ id: `promise ${turn} ${promise.batchId}`, ...promise })
    const batch = world.batches.find(({ id }) => id === promise.batchId)
    if (batch) touched.add(batch.threadId)
  }
  return [...touched]
}

it('says after every movement, brought in thread by thread, what it says made anew', () => {
  let moved = 0
  fc.assert(
    fc.property(aWorld, fc.array(aMovement, { minLength: 1, maxLength: 12 }), (start, movements) => {
      const world = { ...start }
      const engines = enginesOf(world)
      movements.forEach((movement, turn) => {
        const threads = move(world, movement, turn)
        moved += threads.length > 0 ? 1 : 0
        for (const { ownerIds, engine } of engines) engine.setStock(threads.map((threadId) => freeOf(world, threadId, ownerIds)))
        expectSlowAnswers(world, engines)
      })
    }),
    { ...settings, numRuns: 500 },
  )
  expect(moved).toBeGreaterThan(1_000)
})
