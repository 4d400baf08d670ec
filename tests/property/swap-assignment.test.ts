import fc from 'fast-check'
import load from 'highs'
import { describe, expect, it } from 'vitest'
import type { Lab } from '#lib/colour/lab'
import {
  costOf,
  crossingsOf,
  explainAssignment,
  judgeInTask,
  modelSwaps,
  readAssignment,
  type SwapAssignment,
  type SwapCandidate,
  type SwapColour,
  type SwapTask,
} from '#lib/coverage/assign-swaps'
import { solveMilp } from '#lib/solver/solve-milp'
import { aThread } from '../unit/thread/swap-threads'

const parameters = { seed: 20260907, numRuns: 200 }
const solver = await load()

/** Colours crowded into a small corner, so that stand-ins get into each other's way. */
const crowded = fc.record({
  L: fc.integer({ min: 40, max: 56 }),
  a: fc.integer({ min: 14, max: 26 }),
  b: fc.integer({ min: 4, max: 14 }),
})
const someStock = fc.integer({ min: 0, max: 6 }).map((skeins) => ({
  freeStrandTenths: skeins * 100_000,
  bestLotStrandTenths: Math.ceil(skeins / 2) * 100_000,
  isSomeHeld: false,
}))

const worlds = fc
  .record({
    kept: fc.array(crowded, { maxLength: 3 }),
    missing: fc.array(fc.record({ lab: crowded, need: fc.integer({ min: 1, max: 3 }) }), { minLength: 1, maxLength: 4 }),
    pool: fc.array(
      fc.record({
        lab: crowded,
        stock: someStock,
        lotsMatter: fc.boolean(),
        fibre: fc.constantFrom('cotton', 'cotton', 'silk'),
        dyeing: fc.constantFrom('solid' as const, 'solid' as const, 'overdyed' as const),
      }),
      { minLength: 1, maxLength: 6 },
    ),
    mergesFirstTwo: fc.boolean(),
    cloth: fc.option(fc.record({ L: fc.integer({ min: 30, max: 95 }), a: fc.constant(0), b: fc.constant(6) }), { nil: null }),
  })
  .map(({ kept, missing, pool, mergesFirstTwo, cloth }): SwapTask => {
    const candidates = pool.map(({ lab, stock, ...line }, at): SwapCandidate => ({ thread: aThread(`p${at}`, lab, line), stock }))
    const colour = (threadId: string, lab: Lab, need: number) => ({
      charted: aThread(threadId, lab),
      need: { strandTenths: need * 100_000, strands: 2 },
    })
    const colours: SwapColour[] = [
      ...kept.map((lab, at): SwapColour => ({ ...colour(`k${at}`, lab, 1), state: 'kept' })),
      ...missing.map(({ lab, need }, at): SwapColour => ({ ...colour(`m${at}`, lab, need), state: 'missing', candidates })),
    ]
    return { colours, cloth, merges: mergesFirstTwo ? [['m0', 'm1']] : [] }
  })

const missingOf = (task: SwapTask) => task.colours.flatMap((colour) => (colour.state === 'missing' ? [colour] : []))

type Worth = { unserved: number; crossings: number; hundredths: number }

/** Threads left unserved, crossings and the total difference; null when some swap breaks a rule against the others as chosen. */
function worth(task: SwapTask, assignment: SwapAssignment): Worth | null {
  const found: Worth = { unserved: 0, crossings: 0, hundredths: 0 }
  for (const colour of missingOf(task)) {
    const chosenId = assignment.get(colour.charted.threadId)
    const candidate = colour.candidates.find(({ thread }) => thread.threadId === chosenId)
    if (!candidate) {
      found.unserved++
      continue
    }
    const verdict = judgeInTask(task, colour, candidate, assignment)
    if (!verdict.isAccepted) return null
    found.crossings += crossingsOf(verdict)
    found.hundredths += costOf(verdict)
  }
  return found
}

const compareWorth = (a: Worth, b: Worth): number =>
  a.unserved - b.unserved || a.crossings - b.crossings || a.hundredths - b.hundredths

/** Every assignment there is, tried in turn. */
function* everyAssignment(task: SwapTask): Generator<SwapAssignment> {
  const lines = missingOf(task)
  function* from(at: number, chosen: Map<string, string | null>): Generator<SwapAssignment> {
    const line = lines[at]
    if (!line) {
      yield new Map(chosen)
      return
    }
    for (const threadId of [null, ...line.candidates.map(({ thread }) => thread.threadId)]) {
      chosen.set(line.charted.threadId, threadId)
      yield* from(at + 1, chosen)
    }
  }
  yield* from(0, new Map())
}

function bestByTrial(task: SwapTask): Worth {
  let best: Worth = { unserved: Number.POSITIVE_INFINITY, crossings: 0, hundredths: 0 }
  for (const assignment of everyAssignment(task)) {
    const found = worth(task, assignment)
    if (found && compareWorth(found, best) < 0) best = found
  }
  return best
}

function solved(task: SwapTask): SwapAssignment {
  const model = modelSwaps(task)
  if (!model) return new Map()
  const answer = solver.solve(model.lpText, { mip_rel_gap: 0, mip_abs_gap: 1e-6, output_flag: false })
  expect(answer.Status).toBe('Optimal')
  const columns = Object.entries(answer.Columns).map(([name, column]): [string, number] => [
    name,
    (column as { Primal: number }).Primal,
  ])
  return readAssignment(model, new Map(columns))
}

describe('assigning stand-ins together', () => {
  it('serves as many threads as trying everything does, at the same total difference', () => {
    let contested = 0
    fc.assert(
      fc.property(worlds, (task) => {
        const best = bestByTrial(task)
        if (best.unserved > 0 && best.unserved < missingOf(task).length) contested++
        expect(worth(task, solved(task))).toEqual(best)
      }),
      parameters,
    )
    // The worlds are crowded enough for the question to matter.
    expect(contested).toBeGreaterThan(20)
  })

  it('reads the same whatever the order of colours and candidates', () => {
    fc.assert(
      fc.property(worlds, (task) => {
        const turned: SwapTask = {
          ...task,
          colours: [...task.colours]
            .reverse()
            .map((colour) => (colour.state === 'missing' ? { ...colour, candidates: [...colour.candidates].reverse() } : colour)),
        }
        expect(modelSwaps(turned)?.lpText).toBe(modelSwaps(task)?.lpText)
      }),
      parameters,
    )
  })

  it('leaves no candidate that would be better for one thread alone without a reason against it', () => {
    fc.assert(
      fc.property(worlds, (task) => {
        const assignment = solved(task)
        for (const { chosen, nearer, others } of explainAssignment(task, assignment)) {
          for (const { verdict } of nearer) {
            const isCrossing = chosen !== null && crossingsOf(verdict) > crossingsOf(chosen.verdict)
            expect(!verdict.isAccepted || isCrossing).toBe(true)
          }
          if (chosen === null) expect(others).toEqual([])
          for (const { verdict } of chosen ? others : []) {
            const [mine, theirs] = [chosen?.verdict ?? verdict, verdict]
            expect(crossingsOf(theirs) - crossingsOf(mine) || costOf(theirs) - costOf(mine)).toBeGreaterThanOrEqual(0)
          }
        }
      }),
      parameters,
    )
  })

  it('comes out of the worker thread as it does here', async () => {
    for (const task of fc.sample(worlds, { seed: 20260907, numRuns: 8 })) {
      const model = modelSwaps(task)
      if (!model) continue
      const answer = await solveMilp(model.lpText, { timeLimitSeconds: 5 })
      if (answer.status !== 'optimal') throw new Error(`the worker said ${answer.status}`)
      expect(readAssignment(model, answer.columns)).toEqual(solved(task))
    }
  })
})
