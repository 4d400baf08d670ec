import fc from 'fast-check'
import { expect, it } from 'vitest'
import { type Batch, knownStrandTenths, type PartCertainty, type StockPromise } from '#lib/stock/batch'
import { type BatchOutcome, planUnpack, putUpsIn } from '#lib/stock/unpack'

const putUp = 480_000
const seed = 20_261_129

const part: fc.Arbitrary<{ partStrandTenths: number; partCertainty: PartCertainty }> = fc.oneof(
  fc.constant({ partStrandTenths: 0, partCertainty: 'none' as const }),
  fc.constant({ partStrandTenths: 0, partCertainty: 'some' as const }),
  fc.record({
    partStrandTenths: fc.integer({ min: 1, max: putUp }),
    partCertainty: fc.constantFrom('measured' as const, 'label' as const, 'guess' as const),
  }),
)

/** A bag of random batches, what was promised of them, and what came of each. */
const bags = fc
  .array(
    fc.record({
      wholePutUps: fc.integer({ min: 0, max: 4 }),
      part,
      thread: fc.integer({ min: 0, max: 3 }),
      home: fc.constantFrom('T2.1', 'T10.1', null),
      fate: fc.constantFrom('as-it-was', 'left', 'used-up', 'not-there', 'stays'),
      share: fc.double({ min: 0, max: 1, noNaN: true }),
      notThere: fc.integer({ min: 0, max: 2 }),
      promised: fc.integer({ min: 0, max: 3 * putUp }),
      isFreed: fc.boolean(),
    }),
    { maxLength: 8 },
  )
  .map((rows) => {
    const filled = rows.filter((row) => row.wholePutUps > 0 || row.part.partCertainty !== 'none')
    const batches = filled.map(
      (row, turn): Batch => ({
        ...{ id: `b${turn}`, threadId: `t${row.thread}`, ownerId: 'shop', lot: null, putUpWord: null, putUpStrandTenths: putUp },
        ...{ wholePutUps: row.wholePutUps, ...row.part, homePlaceId: row.home, currentPlaceId: 'K-07' },
      }),
    )
    const outcomes = filled.map((row, turn): BatchOutcome => {
      const batch = batches[turn] as Batch
      const canMiss = row.fate !== 'stays' && row.fate !== 'not-there' && row.notThere < putUpsIn(batch)
      const notThere = canMiss ? Math.min(row.notThere, batch.wholePutUps) : 0
      const held = knownStrandTenths({ ...batch, wholePutUps: batch.wholePutUps - notThere })
      const outcome: BatchOutcome['outcome'] =
        row.fate === 'left'
          ? { kind: 'left', strandTenths: Math.floor(held * row.share), certainty: 'measured' }
          : { kind: row.fate as 'as-it-was' }
      return { batchId: batch.id, outcome, notThere, projectId: row.isFreed ? 'j1' : null }
    })
    const promises: StockPromise[] = filled.flatMap((row, turn) =>
      row.promised === 0 ? [] : [{ id: `p${turn}`, batchId: `b${turn}`, projectId: 'j1', strandTenths: row.promised }],
    )
    return { batches, outcomes, promises, freedProjects: new Set(filled.some((row) => row.isFreed) ? ['j1'] : []) }
  })

it('loses no put-up and no length: pulled = back + used up + missing + staying, and every delta is in the journal', () => {
  fc.assert(
    fc.property(bags, ({ batches, outcomes, promises, freedProjects }) => {
      let parted = 0
      const plan = planUnpack({
        ...{ batches, outcomes, promises, freedProjects, notFoundPlaceId: 'not found' },
        walkRanks: new Map([['T2.1', 0], ['T10.1', 1]]), // biome-ignore format: pairs
        newBatchId: () => `m${parted++}`,
      })
      if (!plan.ok) throw new Error(plan.error.kind)
      const { check, change, back, stays, missing } = plan.value
      expect(check.pulled).toBe(batches.reduce((sum, batch) => sum + putUpsIn(batch), 0))
      expect(check.back + check.usedUp + check.missing + check.stays).toBe(check.pulled)
      expect(back.reduce((sum, goods) => sum + putUpsIn(goods), 0)).toBe(check.back)
      expect(stays.reduce((sum, goods) => sum + putUpsIn(goods), 0)).toBe(check.stays)
      expect(missing.reduce((sum, one) => sum + one.putUps, 0)).toBe(check.missing)

      const after = new Map<string, Batch>(batches.map((batch) => [batch.id, batch]))
      for (const batch of change.batches) after.set(batch.id, batch)
      // Batch by batch the journal says what changed; in all, only use and a guess put right change the length there is.
      for (const [id, batch] of after) {
        const before = batches.find((one) => one.id === id)
        const lines = change.movements.filter(({ batchId }) => batchId === id)
        const whole = lines.reduce((sum, line) => sum + line.wholeDelta, 0)
        const length = lines.reduce((sum, line) => sum + line.partDeltaStrandTenths, 0)
        expect([batch.wholePutUps, batch.partStrandTenths]).toEqual([
          (before?.wholePutUps ?? 0) + whole,
          (before?.partStrandTenths ?? 0) + length,
        ])
        expect(batch.wholePutUps).toBeGreaterThanOrEqual(0)
        expect(batch.partStrandTenths).toBeGreaterThanOrEqual(0)
      }
      const lengthOf = (all: Iterable<Batch>) =>
        [...all].reduce((sum, batch) => sum + batch.wholePutUps * putUp + batch.partStrandTenths, 0)
      const changed = change.movements
        .filter(({ kind }) => kind === 'use' || kind === 'correct')
        .reduce((sum, line) => sum + line.wholeDelta * putUp + line.partDeltaStrandTenths, 0)
      expect(lengthOf(after.values()) - lengthOf(batches)).toBe(changed)
      for (const promise of change.promises) expect(promise.strandTenths).toBeGreaterThanOrEqual(0)
    }),
    { seed, numRuns: 400 },
  )
})

it('makes no difference of the order in which things are taken out', () => {
  fc.assert(
    fc.property(bags, ({ batches, outcomes, promises, freedProjects }) => {
      const plan = (turned: boolean) =>
        planUnpack({
          ...{ promises, freedProjects, notFoundPlaceId: 'not found', walkRanks: new Map([['T2.1', 0]]) },
          batches: turned ? [...batches].reverse() : batches,
          outcomes: turned ? [...outcomes].reverse() : outcomes,
          newBatchId: () => 'm',
        })
      expect(plan(true)).toEqual(plan(false))
    }),
    { seed, numRuns: 100 },
  )
})
