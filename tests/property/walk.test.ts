import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { tickMoment } from '#lib/project/later-tick'
import { afterTick, type Tick, type TickedLine, tickedStatuses } from '#lib/project/walk'
import { type CarryLine, planCarry, planHomecoming } from '#lib/project/walk-carry'
import { inWalkingOrder, pullsOf } from '#lib/project/walk-lines'
import { type Batch, knownStrandTenths, type StockPromise } from '#lib/stock/batch'
import type { StockChange } from '#lib/stock/stock-change'

const settings = { seed: 20261129, numRuns: 400 }
const skein = 480_000

const someTick = fc.record({
  status: fc.constantFrom(...tickedStatuses),
  // Few moments, so that many are the same.
  tickedAtMs: fc.integer({ min: 1, max: 5 }),
  by: fc.option(fc.constantFrom('Ines Coldwell', 'Nell Oxtoby')),
}) satisfies fc.Arbitrary<Tick>

const untouched: TickedLine = { status: 'open', tickedAtMs: null, tickedBy: null }

describe('ticks of several people', () => {
  const arrivals = fc
    .array(someTick, { maxLength: 8 })
    .chain((ticks) =>
      fc.record({ ticks: fc.constant(ticks), other: fc.shuffledSubarray([...ticks, ...ticks], { minLength: ticks.length }) }),
    )

  it('leave the same line whatever the order they arrive in, and however often one is sent', () => {
    fc.assert(
      fc.property(arrivals, ({ ticks, other }) => {
        const whole = [...other, ...ticks]
        expect(whole.reduce(afterTick, untouched)).toEqual(ticks.reduce(afterTick, untouched))
        expect([...whole].reverse().reduce(afterTick, untouched)).toEqual(ticks.reduce(afterTick, untouched))
      }),
      settings,
    )
  })

  it('end with the last one made: none is lost to an earlier one', () => {
    fc.assert(
      fc.property(fc.array(someTick, { minLength: 1, maxLength: 8 }), (ticks) => {
        const line = ticks.reduce(afterTick, untouched)
        const latest = Math.max(...ticks.map(({ tickedAtMs }) => tickedAtMs))
        expect(line.tickedAtMs).toBe(latest)
        expect(ticks.some((tick) => tick.tickedAtMs === latest && tick.status === line.status && tick.by === line.tickedBy)).toBe(
          true,
        )
      }),
      settings,
    )
  })

  it('are never in the future, and as far apart as they were made, however wrong a clock is', () => {
    const clock = fc.record({
      offMs: fc.integer({ min: -1e9, max: 1e9 }),
      agesMs: fc.array(fc.nat(600_000), { minLength: 2, maxLength: 4 }),
    })
    fc.assert(
      fc.property(clock, ({ offMs, agesMs }) => {
        const now = 1e12
        const at = (ageMs: number) => tickMoment({ tickedAtMs: now - ageMs - offMs, sentAtMs: now - offMs }, now)
        for (const ageMs of agesMs) {
          expect(at(ageMs)).toBeLessThanOrEqual(now)
          // A clock that is a minute out or less is left as it is.
          expect(Math.abs(now - ageMs - at(ageMs))).toBeLessThanOrEqual(60_000)
        }
      }),
      settings,
    )
  })
})

const projectIds = ['a', 'b', 'c']

const someBatch = (id: string): fc.Arbitrary<Batch> =>
  fc.record({ wholePutUps: fc.nat(6), part: fc.option(fc.integer({ min: 1, max: skein - 1 })) }).map(({ wholePutUps, part }) => ({
    ...{ id, threadId: 't', ownerId: 'shop', lot: null, putUpWord: null, putUpStrandTenths: skein, wholePutUps },
    ...{ partStrandTenths: part ?? 0, partCertainty: part === null ? 'none' : 'measured' },
    ...{ homePlaceId: 'drawer', currentPlaceId: 'drawer' },
  }))

/** Batches at home, what projects were promised of them, never more than is there, and the lines of a walk for it. */
const someWorld = fc
  .record({
    batches: fc.tuple(someBatch('x'), someBatch('y')),
    shares: fc.array(fc.integer({ min: 1, max: 100 }), { minLength: 6, maxLength: 6 }),
    order: fc.shuffledSubarray(projectIds, { minLength: 3 }),
  })
  .map(({ batches, shares, order }) => {
    const promises = batches.flatMap((batch, at): StockPromise[] => {
      const held = knownStrandTenths(batch)
      return projectIds.flatMap((projectId, turn) => {
        const strandTenths = Math.floor((held * (shares[at * 3 + turn] ?? 0)) / 300)
        return strandTenths > 0 ? [{ id: `${batch.id}${projectId}`, batchId: batch.id, projectId, strandTenths }] : []
      })
    })
    const lines = batches.flatMap((batch) => {
      const own = promises.filter(({ batchId }) => batchId === batch.id)
      const wants = order.flatMap((projectId) => {
        const promise = own.find((one) => one.projectId === projectId)
        return promise ? [{ projectId, strandTenths: promise.strandTenths, leastCutStrandTenths: 0 }] : []
      })
      return pullsOf(batch, wants, own).pulls.map(
        ({ projectId, wholePutUps, takesPart }): CarryLine => ({
          ...{ lineId: `${batch.id}${projectId}`, batchId: batch.id, projectId, wholePutUps, takesPart },
          ...{ toPlaceId: `bag ${projectId}`, newBatchId: `${batch.id} of ${projectId}` },
        }),
      )
    })
    return { batches, promises, lines }
  })

const world = someWorld.chain(({ batches, promises, lines }) =>
  fc.record({
    ...{ batches: fc.constant<Batch[]>([...batches]), promises: fc.constant(promises), lines: fc.constant(lines) },
    turns: fc.array(fc.shuffledSubarray(lines), { maxLength: 4 }),
  }),
)

type World = { batches: Batch[]; promises: StockPromise[] }

/** The record after a change, as the database would have it. */
function written({ batches, promises }: World, change: StockChange): World {
  const byId = new Map(batches.map((batch) => [batch.id, batch]))
  for (const { isNew: _isNew, isGone, parentId: _parentId, ...batch } of change.batches) {
    if (isGone) byId.delete(batch.id)
    else byId.set(batch.id, batch)
  }
  const kept = promises.filter(
    (one) => !change.promises.some((now) => now.batchId === one.batchId && now.projectId === one.projectId),
  )
  return {
    batches: [...byId.values()],
    promises: [...kept, ...change.promises.filter(({ strandTenths }) => strandTenths > 0).map((one) => ({ id: 'n', ...one }))],
  }
}

const total = (batches: readonly Batch[]) => batches.reduce((sum, batch) => sum + knownStrandTenths(batch), 0)
const promisedTo = ({ promises }: World, id: string) =>
  promises.reduce((sum, promise) => (promise.projectId === id ? sum + promise.strandTenths : sum), 0)

describe('carrying out in turns', () => {
  it('keeps all thread and every promise, however the ticks are shared out over the turns', () => {
    fc.assert(
      fc.property(world, ({ batches, promises, lines, turns }) => {
        let now: World = { batches, promises }
        const carried = new Set<string>()
        for (const turn of [...turns, lines]) {
          const open = turn.filter(({ lineId }) => !carried.has(lineId))
          const plan = planCarry({ ...now, lines: open })
          const sums = plan.change.movements.reduce((sum, one) => sum + one.wholeDelta * skein + one.partDeltaStrandTenths, 0)
          // What the journal says of a split leaves one batch and comes to another: in all, nothing.
          expect(sums).toBe(0)
          now = written(now, plan.change)
          for (const id of plan.carried) carried.add(id)
          expect(total(now.batches)).toBe(total(batches))
          for (const id of projectIds) expect(promisedTo(now, id)).toBe(promisedTo({ batches, promises }, id))
          for (const batch of now.batches) expect(Math.min(batch.wholePutUps, batch.partStrandTenths)).toBeGreaterThanOrEqual(0)
        }
        // Nothing was promised twice, so all that the list names can be lifted in the end.
        expect([...carried].sort()).toEqual(lines.map(({ lineId }) => lineId).sort())
      }),
      settings,
    )
  })

  it('and bringing it all home again leaves every drawer as full as it was', () => {
    fc.assert(
      fc.property(world, ({ batches, promises, lines }) => {
        const out = written({ batches, promises }, planCarry({ batches, promises, lines }).change)
        const away = out.batches.filter((batch) => batch.currentPlaceId !== batch.homePlaceId)
        const atHome = (batch: Batch) =>
          out.batches.find((one) => one.currentPlaceId === 'drawer' && one.id !== batch.id && batch.id.startsWith(one.id))
        const back = planHomecoming({
          ...out,
          mergeInto: new Map(away.flatMap((batch) => (atHome(batch) ? [[batch.id, atHome(batch) as Batch]] : []))),
          lines: away.map((batch) => ({
            ...{ lineId: batch.id, batchId: batch.id, projectId: null, wholePutUps: batch.wholePutUps },
            ...{ takesPart: batch.partCertainty !== 'none', toPlaceId: null, newBatchId: `${batch.id} again` },
          })),
        })
        expect(back.left).toEqual([])
        const home = written(out, back.change)
        expect(total(home.batches)).toBe(total(batches))
        expect(home.batches.every((batch) => batch.currentPlaceId === 'drawer')).toBe(true)
        for (const id of projectIds) expect(promisedTo(home, id)).toBe(promisedTo({ batches, promises }, id))
      }),
      settings,
    )
  })
})

it('walks alike whatever order the lines were found in', () => {
  const stop = fc.record({
    ...{ batchId: fc.constantFrom('x', 'y', 'z'), projectId: fc.constantFrom(...projectIds) },
    ...{ placeId: fc.option(fc.constantFrom('p', 'q')), maker: fc.constantFrom('Larkholm', 'Marrowgate') },
    code: fc.constantFrom('9', '10', '0017', 'Ecru'),
    ...{ clothPieceId: fc.constant(null), chartId: fc.constant(null), notionId: fc.constant(null) },
  })
  const both = fc
    .uniqueArray(stop, { maxLength: 8, selector: ({ batchId, projectId }) => `${batchId}${projectId}` })
    .chain((stops) => fc.tuple(fc.constant(stops), fc.shuffledSubarray(stops, { minLength: stops.length })))
  const order = {
    rankOf: new Map([
      ['q', 0],
      ['p', 1],
    ]),
    projectIds,
  }
  fc.assert(
    fc.property(both, ([stops, other]) => {
      const walked = inWalkingOrder(stops, order)
      expect(inWalkingOrder(other, order)).toEqual(walked)
      const ranks = walked.map(({ placeId }) => (placeId === 'q' ? 0 : placeId === 'p' ? 1 : 2))
      expect(ranks).toEqual([...ranks].sort())
    }),
    settings,
  )
})
