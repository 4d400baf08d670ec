import fc from 'fast-check'
import { expect, it } from 'vitest'
import type { BagStatus } from '#lib/project/kit/bag-status'
import { type BagFacts, bagSteps, planBagStep } from '#lib/project/kit/bags'
import { type KitMark, markStatuses, planMarks } from '#lib/project/kit/check'
import { planKitCutting } from '#lib/project/kit/cutting'
import { bagsWithCut, type KitLot, lotsOverBags } from '#lib/project/kit/record'
import { type Batch, knownStrandTenths, type StockPromise } from '#lib/stock/batch'

const settings = { seed: 20261129, numRuns: 400 }

const aBatch = fc.record({
  putUpStrandTenths: fc.constantFrom(8, 10, 16),
  wholePutUps: fc.integer({ min: 0, max: 5 }),
  partStrandTenths: fc.integer({ min: 0, max: 7 }),
  lot: fc.constantFrom(null, '18', '22'),
  ownerId: fc.constantFrom('shop', 'shop', 'shop', 'nell'),
  own: fc.integer({ min: 0, max: 40 }),
  others: fc.integer({ min: 0, max: 20 }),
  isInBag: fc.boolean(),
})

const aWorld = fc.record({
  cutStrandTenths: fc.integer({ min: 1, max: 20 }),
  needsOneLot: fc.boolean(),
  drawn: fc.array(aBatch, { minLength: 1, maxLength: 4 }),
  first: fc.integer({ min: 1, max: 8 }),
  more: fc.integer({ min: 0, max: 8 }),
})

type Drawn = Omit<typeof aBatch extends fc.Arbitrary<infer T> ? T : never, 'putUpStrandTenths'> & { putUpStrandTenths: number }

function stockOf(drawn: Drawn[]) {
  const batches = drawn.map(
    ({ own: _o, others: _p, isInBag, ...one }, at): Batch => ({
      ...{ id: `b${at}`, threadId: '0311', putUpWord: null, homePlaceId: 'drawer' },
      ...one,
      partCertainty: one.partStrandTenths > 0 ? 'measured' : 'none',
      currentPlaceId: isInBag ? 'K-07' : 'drawer',
    }),
  )
  const promises = drawn.flatMap(({ own, others, isInBag }, at): StockPromise[] => {
    const held = knownStrandTenths(batches[at] as Batch)
    const [mine, theirs] = [Math.min(own, held), isInBag ? 0 : Math.min(others, held - Math.min(own, held))]
    const promise = (projectId: string, strandTenths: number) =>
      strandTenths > 0 ? [{ id: `${projectId} b${at}`, batchId: `b${at}`, projectId, strandTenths }] : []
    return [...promise('lanterns', mine), ...promise('barge', theirs)]
  })
  return { batches, promises }
}

const pieces = (length: number) => Array.from({ length }, (_, at) => at + 1)

/** What is there as pieces of thread nobody joined: every put-up and every part is one. */
const piecesIn = (batch: Batch): number[] => [
  ...Array.from({ length: batch.wholePutUps }, () => batch.putUpStrandTenths),
  ...(batch.partStrandTenths > 0 ? [batch.partStrandTenths] : []),
]

it('each bag gets its cut once, of one piece; what is used and what is left are what there was; others keep what they were promised', () => {
  fc.assert(
    fc.property(aWorld, ({ cutStrandTenths, needsOneLot, drawn, first, more }) => {
      let { batches, promises } = stockOf(drawn)
      let lots: KitLot[] = []
      let made = 0
      // Some bags first, then all: the second time stock is what the first left.
      for (const bags of [pieces(first), pieces(first + more)]) {
        const thread = { threadId: '0311', cutStrandTenths, linePutUpStrandTenths: 8, needsOneLot }
        const plan = planKitCutting({
          ...{ projectId: 'lanterns', ownerId: 'shop', threads: [thread], bags, lots, batches, promises },
          newBatchId: () => `new${++made}`,
        })
        const [cut] = plan.threads
        const before = bagsWithCut(lots, '0311')
        const numbers = (cut?.runs ?? []).flatMap(({ fromBag, toBag }) => pieces(toBag).slice(fromBag - 1))
        expect([...numbers, ...(cut?.short ?? [])]).toEqual(bags.filter((bag) => !before.has(bag)))

        const change = new Map<string, Batch>(plan.change.batches.map((batch) => [batch.id, batch]))
        const now = [
          ...batches.map((batch) => change.get(batch.id) ?? batch),
          ...[...change.values()].filter(({ id }) => id.startsWith('new') && !batches.some((b) => b.id === id)),
        ]
        const sum = (all: readonly Batch[]) => all.reduce((total, batch) => total + knownStrandTenths(batch), 0)
        expect(sum(now)).toBe(sum(batches) - numbers.length * cutStrandTenths)
        // A batch's amounts are the sums of its movements.
        for (const batch of now) {
          const was = batches.find(({ id }) => id === batch.id)
          const own = plan.change.movements.filter(({ batchId }) => batchId === batch.id)
          const [whole, part] = [own.reduce((t, m) => t + m.wholeDelta, 0), own.reduce((t, m) => t + m.partDeltaStrandTenths, 0)]
          expect([batch.wholePutUps, batch.partStrandTenths]).toEqual([
            (was?.wholePutUps ?? 0) + whole,
            (was?.partStrandTenths ?? 0) + part,
          ])
          expect(Math.min(batch.wholePutUps, batch.partStrandTenths)).toBeGreaterThanOrEqual(0)
        }
        // Every cut that is no longer than a put-up comes out of one piece: put back together, each batch's pieces are what it was.
        for (const batch of batches) {
          const kits = (cut?.runs ?? []).reduce((t, run) => (run.batchId === batch.id ? t + run.toBag - run.fromBag + 1 : t), 0)
          if (kits === 0) continue
          expect(batch.ownerId).toBe('shop')
          const left = now
            .filter(
              ({ id, parentId }: Batch & { parentId?: string | null }) =>
                id === batch.id || (parentId === batch.id && !batches.some((b) => b.id === id)),
            )
            .flatMap(piecesIn)
          expect(canBeCut(piecesIn(batch), left, cutStrandTenths, kits, batch.putUpStrandTenths)).toBe(true)
        }
        const kept = new Map(promises.map((promise) => [promise.id, promise]))
        for (const { batchId, projectId, strandTenths } of plan.change.promises) {
          const id = `${projectId} ${batchId}`
          if (strandTenths === 0) kept.delete(id)
          else kept.set(id, { id, batchId, projectId, strandTenths })
        }
        const theirs = (all: readonly StockPromise[]) =>
          all.reduce((t, p) => (p.projectId === 'barge' ? t + p.strandTenths : t), 0)
        expect(theirs([...kept.values()])).toBe(theirs(promises))
        promises = [...kept.values()]
        for (const batch of now) {
          const promised = promises.reduce((t, p) => (p.batchId === batch.id ? t + p.strandTenths : t), 0)
          expect(promised).toBeLessThanOrEqual(knownStrandTenths(batch))
        }
        lots = [...lots, ...(cut?.runs ?? [])]
        expect(cut?.isMixed).toBe(needsOneLot && lotsOverBags(lots, '0311').length > 1)
        batches = now
      }
    }),
    settings,
  )
})

/** Whether so many cuts can be made of these pieces, none joined but of whole put-ups, so that just those others are left. */
function canBeCut(before: readonly number[], left: readonly number[], cut: number, kits: number, putUp: number): boolean {
  const whole = Math.ceil(cut / putUp) - 1
  const rest = cut - whole * putUp
  // Whole put-ups of longer cuts first; which ones makes no difference.
  const pool = [...before].sort((a, b) => b - a)
  for (let taken = 0; taken < kits * whole; taken++) {
    const at = pool.indexOf(putUp)
    if (at < 0) return false
    pool.splice(at, 1)
  }
  // Every piece must leave itself less a multiple of the cut: match what is left, longest first, trying all.
  const match = (from: readonly number[], remaining: readonly number[], cuts: number): boolean => {
    const [piece, ...others] = from
    if (piece === undefined) return remaining.length === 0 && cuts === 0
    for (let made = 0; made * rest <= piece && made <= cuts; made++) {
      const over = piece - made * rest
      if (over === 0) {
        if (match(others, remaining, cuts - made)) return true
        continue
      }
      const at = remaining.indexOf(over)
      if (at >= 0 && match(others, [...remaining.slice(0, at), ...remaining.slice(at + 1)], cuts - made)) return true
    }
    return false
  }
  return match(pool, left, kits)
}

it('no lot is mixed where one of what was promised is enough', () => {
  fc.assert(
    fc.property(aWorld, ({ cutStrandTenths, needsOneLot, drawn, first }) => {
      // Long put-ups and nobody else's promises: how many cuts a piece gives is then plain division.
      const plain = drawn.map((one) => ({
        ...one,
        others: 0,
        own: 1_000,
        isInBag: false,
        ownerId: 'shop' as const,
        putUpStrandTenths: 20,
      }))
      const { batches, promises } = stockOf(plain)
      const thread = { threadId: '0311', cutStrandTenths, linePutUpStrandTenths: 20, needsOneLot }
      const plan = planKitCutting({
        ...{ projectId: 'lanterns', ownerId: 'shop', threads: [thread], bags: pieces(first), lots: [], batches, promises },
        newBatchId: () => 'new',
      })
      const cutsOf = (batch: Batch) => piecesIn(batch).reduce((sum, piece) => sum + Math.floor(piece / cutStrandTenths), 0)
      const byLot = new Map<string, number>()
      for (const batch of batches) byLot.set(batch.lot ?? batch.id, (byLot.get(batch.lot ?? batch.id) ?? 0) + cutsOf(batch))
      const isOneEnough = [...byLot.values()].some((cuts) => cuts >= first)
      const used = new Set((plan.threads[0]?.runs ?? []).map(({ lot, batchId }) => lot ?? batchId))
      if (isOneEnough) expect(used.size).toBe(1)
      const all = [...byLot.values()].reduce((a, b) => a + b, 0)
      expect(plan.threads[0]?.short.length).toBe(Math.max(0, first - all))
    }),
    settings,
  )
})

const keys = ['thread:0311', 'cloth', 'chart']
const anAct = fc.oneof(
  fc.record({ step: fc.constantFrom(...bagSteps), bag: fc.integer({ min: 0, max: 3 }) }),
  fc.record({
    key: fc.constantFrom(...keys),
    status: fc.constantFrom('there' as const, ...markStatuses),
    bag: fc.integer({ min: 0, max: 3 }),
  }),
  fc.record({ all: fc.constant(true), bag: fc.integer({ min: 0, max: 3 }) }),
)

it('whatever is done to bags, one that is closed was found right, and charts in kits and in stock are those there were', () => {
  fc.assert(
    fc.property(fc.array(anAct, { maxLength: 80 }), fc.integer({ min: 0, max: 4 }), (acts, copies) => {
      const bags: BagFacts[] = [1, 2, 3, 4].map((number) => ({ number, isSpare: number === 4, status: 'open', marks: [] }))
      let stock = copies
      for (const act of acts) {
        const bag = bags[act.bag] as BagFacts
        const linesOf = ({ isSpare, status }: BagFacts) => (isSpare && status !== 'sold' ? keys.slice(0, 2) : keys)
        let next: BagFacts | null = null
        if ('step' in act) {
          const planned = planBagStep(bag, act.step, { keys: linesOf(bag), uncut: [], hasChart: true, reason: 'because' })
          if (!planned.ok || stock + planned.value.chartDelta < 0) continue
          stock += planned.value.chartDelta
          next = { ...bag, status: planned.value.status, marks: planned.value.forgetsMarks ? [] : bag.marks }
        } else {
          const marks =
            'key' in act ? [{ key: act.key, status: act.status }] : linesOf(bag).map((key) => ({ key, status: 'there' as const }))
          const planned = planMarks({ ...bag, packedBy: 'Nell' }, { keys: linesOf(bag), marks, by: 'Ines', isAlone: false })
          if (!planned.ok) continue
          const kept = new Map<string, KitMark>(bag.marks.map((mark) => [mark.key, mark]))
          for (const mark of planned.value.marks) kept.set(mark.key, mark)
          next = { ...bag, status: planned.value.status, marks: [...kept.values()] }
        }
        bags[act.bag] = next
        const isClosed = (status: BagStatus) => status === 'sealed' || status === 'sold'
        for (const one of bags) {
          const isRight = linesOf({ ...one, status: 'sealed' }).every((key) =>
            one.marks.some((mark) => mark.key === key && mark.status === 'there'),
          )
          if (isClosed(one.status) || one.status === 'checked') expect(isRight).toBe(true)
          if (one.status === 'packed') expect(isRight).toBe(false)
        }
        const inKits = bags.filter(({ isSpare, status }) => (isSpare ? status === 'sold' : isClosed(status))).length
        expect(stock + inKits).toBe(copies)
      }
    }),
    settings,
  )
})
