import fc from 'fast-check'
import { expect, it } from 'vitest'
import type { Result } from '#lib/result'
import { type Batch, knownStrandTenths, type StockPromise } from '#lib/stock/batch'
import { freeStock } from '#lib/stock/free-stock'
import { pullOf } from '#lib/stock/part-off'
import { planCorrect, planReceive, planRelabel, planUse } from '#lib/stock/plan-amounts'
import { planMerge, planSplit, planTransfer, planTransferPart } from '#lib/stock/plan-batches'
import { planMove, planReturn, planTake } from '#lib/stock/plan-place'
import { planPromise } from '#lib/stock/plan-promise'
import type { MovementDraft, StockChange } from '#lib/stock/stock-change'

const settings = { seed: 20260907, numRuns: 200 }
const skein = 480_000
const owners = ['shop', 'own stash']

/** A stock book kept the way the database keeps it: after-images, promises and a journal. */
class Book {
  batches = new Map<string, Batch>()
  promises = new Map<string, StockPromise>()
  /** Laid together with another; kept, because the journal still names them. */
  gone = new Set<string>()
  journal: MovementDraft[] = []
  /** What came in, less what was used, and what corrections added: the length there must be. */
  accounted = 0
  #newest = 0

  newId = () => `b${++this.#newest}`
  list = () => [...this.batches.values()].filter(({ id }) => !this.gone.has(id))
  promised = () => [...this.promises.values()]

  write(plan: Result<StockChange, unknown>): StockChange | null {
    if (!plan.ok) return null
    for (const { isNew, isGone, parentId: _, ...batch } of plan.value.batches) {
      expect(this.batches.has(batch.id)).toBe(!isNew)
      if (isGone) expect([batch.wholePutUps, batch.partStrandTenths, batch.partCertainty]).toEqual([0, 0, 'none'])
      this.batches.set(batch.id, batch)
      if (isGone) this.gone.add(batch.id)
    }
    for (const promise of plan.value.promises) this.promise(promise)
    this.journal.push(...plan.value.movements)
    return plan.value
  }

  promise({ batchId, projectId, strandTenths }: Omit<StockPromise, 'id'>) {
    const id = `${projectId} ${batchId}`
    if (strandTenths === 0) this.promises.delete(id)
    else this.promises.set(id, { id, batchId, projectId, strandTenths })
  }
}

const step = fc.record({
  kind: fc.constantFrom(
    ...['receive', 'use', 'use up', 'move', 'take', 'take', 'pull', 'return', 'return', 'correct', 'relabel'],
    ...['promise', 'promise', 'split', 'split', 'merge', 'merge', 'merge', 'pass on', 'pass some on'],
  ),
  pick: fc.nat(1_000),
  wholePutUps: fc.integer({ min: 0, max: 3 }),
  strandTenths: fc.integer({ min: 1, max: 3 * skein }),
  certainty: fc.constantFrom('none' as const, 'measured' as const, 'label' as const, 'guess' as const, 'some' as const),
  takesPart: fc.boolean(),
  lot: fc.constantFrom(null, '18', '22'),
  place: fc.constantFrom('drawer', 'other drawer', 'K-07', 'K-08'),
  project: fc.constantFrom('rooks', 'lanterns'),
})

function take(
  book: Book,
  {
    kind,
    pick,
    wholePutUps,
    strandTenths,
    certainty,
    takesPart,
    lot,
    place,
    project,
  }: typeof step extends fc.Arbitrary<infer T> ? T : never,
) {
  const batches = book.list()
  const isLength = certainty !== 'none' && certainty !== 'some'
  const part = { partStrandTenths: isLength ? 1 + (strandTenths % skein) : 0, partCertainty: certainty }
  const batch = batches[pick % Math.max(1, batches.length)]
  if (!batch || (kind === 'receive' && batches.length < 8)) {
    const goods = {
      threadId: '0311',
      ownerId: owners[pick % 2] as string,
      lot,
      putUpWord: null,
      putUpStrandTenths: skein,
      wholePutUps,
      ...part,
      homePlaceId: 'drawer',
      currentPlaceId: 'drawer',
    }
    const into = pick % 3 === 0 ? batch : null
    const change = book.write(planReceive({ goods, into, newBatchId: book.newId() }))
    if (change) book.accounted += wholePutUps * skein + part.partStrandTenths
    return
  }
  const promises = book.promised()
  const before = batch.wholePutUps * skein + batch.partStrandTenths
  if (kind === 'use') {
    const change = book.write(planUse(batch, { strandTenths, projectId: project, promises }))
    if (change) book.accounted -= strandTenths
  } else if (kind === 'move') {
    book.write(planMove(batch, { toPlaceId: place, becomesHome: takesPart }))
  } else if (kind === 'take' && (takesPart || wholePutUps > 0)) {
    book.write(
      planTake(batch, { wholePutUps, takesPart, toPlaceId: place, projectId: project, newBatchId: book.newId(), promises }),
    )
  } else if (kind === 'pull' && strandTenths <= knownStrandTenths(batch)) {
    const pull = pullOf(batch, strandTenths)
    book.write(planTake(batch, { ...pull, toPlaceId: place, projectId: project, newBatchId: book.newId(), promises }))
  } else if (kind === 'return') {
    const atHome = pick % 2 === 0 ? (batches[wholePutUps] ?? null) : null
    book.write(planReturn(batch, { atHome, projectId: project, promises }))
  } else if (kind === 'correct') {
    // Only upwards, so that no promise is left without its thread.
    if (wholePutUps < batch.wholePutUps || part.partStrandTenths < batch.partStrandTenths) return
    const change = book.write(planCorrect(batch, { wholePutUps, ...part, reason: 'counted' }))
    if (change) book.accounted += wholePutUps * skein + part.partStrandTenths - before
  } else if (kind === 'use up') {
    const change = book.write(planUse(batch, { strandTenths: 'all', projectId: project, promises }))
    if (change) book.accounted -= before
  } else if (kind === 'relabel') {
    book.write(planRelabel(batch, { lot, putUpWord: takesPart ? 'hank' : null, putUpStrandTenths: skein, reason: 'misread' }))
  } else if (kind === 'split') {
    const home = pick % 2 === 0 ? { homePlaceId: place } : {}
    book.write(planSplit(batch, { wholePutUps, takesPart, ...home, newBatchId: book.newId(), promises }))
  } else if (kind === 'merge') {
    const into = batches[(pick * 7 + wholePutUps) % batches.length] as Batch
    book.write(planMerge(batch, into, { lotsMatter: takesPart, areKin: pick % 3 === 0, promises }))
  } else if (kind === 'pass on') {
    book.write(planTransfer(batch, { toOwnerId: owners[pick % 2] as string, promises }))
  } else if (kind === 'pass some on') {
    const passed = { toOwnerId: owners[pick % 2] as string, wholePutUps, takesPart, newBatchId: book.newId(), promises }
    book.write(planTransferPart(batch, passed))
  } else if (kind === 'promise') {
    const plan = planPromise(batch, { projectId: project, strandTenths }, promises)
    if (plan.ok) book.promise(plan.value)
  }
}

it('no sequence of movements makes thread appear or vanish, and a batch is the sum of its movements', () => {
  fc.assert(
    fc.property(fc.array(step, { minLength: 1, maxLength: 60, size: 'max' }), (steps) => {
      const book = new Book()
      for (const one of steps) {
        take(book, one)
        let held = 0
        for (const batch of book.batches.values()) {
          const own = book.journal.filter((movement) => movement.batchId === batch.id)
          expect(own.reduce((sum, movement) => sum + movement.wholeDelta, 0)).toBe(batch.wholePutUps)
          expect(own.reduce((sum, movement) => sum + movement.partDeltaStrandTenths, 0)).toBe(batch.partStrandTenths)
          expect(Math.min(batch.wholePutUps, batch.partStrandTenths)).toBeGreaterThanOrEqual(0)
          const promised = book
            .promised()
            .reduce((sum, promise) => (promise.batchId === batch.id ? sum + promise.strandTenths : sum), 0)
          expect(promised).toBeLessThanOrEqual(knownStrandTenths(batch))
          held += batch.wholePutUps * skein + batch.partStrandTenths
        }
        expect(held).toBe(book.accounted)
      }
    }),
    settings,
  )
})

it('free = owned − out − promised, lot by lot, whatever the order of rows', () => {
  fc.assert(
    fc.property(
      fc.array(step, { minLength: 1, maxLength: 40, size: 'max' }),
      fc.constantFrom(null, 'rooks'),
      (steps, forProjectId) => {
        const book = new Book()
        for (const one of steps) take(book, one)
        const ask = (batches: Batch[], promises: StockPromise[]) =>
          freeStock({ threadId: '0311', batches, promises, forProjectId, ownerIds: owners })
        const free = ask(book.list(), book.promised())
        expect(free.freeStrandTenths).toBe(free.ownedStrandTenths - free.outStrandTenths - free.promisedStrandTenths)
        expect(free.freeStrandTenths).toBeGreaterThanOrEqual(0)
        expect(free.lots.reduce((sum, lot) => sum + lot.freeStrandTenths, 0)).toBe(free.freeStrandTenths)
        const elsewhere = free.elsewhere.reduce((sum, held) => sum + held.strandTenths, 0)
        expect(elsewhere).toBe(free.outStrandTenths + free.promisedStrandTenths)
        expect(ask(book.list().reverse(), book.promised().reverse())).toEqual(free)
      },
    ),
    settings,
  )
})
