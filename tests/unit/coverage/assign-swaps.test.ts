import { describe, expect, it } from 'vitest'
import {
  explainAssignment,
  modelSwaps,
  readAssignment,
  type SwapAssignment,
  type SwapCandidate,
  type SwapColour,
  type SwapTask,
} from '#lib/coverage/assign-swaps'
import type { ThreadNeed } from '#lib/coverage/need'
import { SwapPool, swapNeedOf } from '#lib/coverage/swap-candidates'
import { solveMilp } from '#lib/solver/solve-milp'
import type { SwapLine } from '#lib/thread/substitution'
import { aThread, lab } from '../thread/swap-threads'

const plenty = { freeStrandTenths: 480_000, bestLotStrandTenths: 480_000, isSomeHeld: false }
const need = { strandTenths: 100_000, strands: 2 }
/** Greys by their lightness: at mid-grey a step in L is nearly the same step in ΔE00. */
const grey = (id: string, L: number, line: Partial<SwapLine> = {}): SwapCandidate => ({
  thread: aThread(id, lab(L, 0, 0), line),
  stock: plenty,
})
const missing = (id: string, L: number, candidates: SwapCandidate[]): SwapColour => ({
  charted: aThread(id, lab(L, 0, 0)),
  need,
  state: 'missing',
  candidates,
})
const taskOf = (...colours: SwapColour[]): SwapTask => ({ colours, cloth: null, merges: [] })

async function assigned(task: SwapTask): Promise<SwapAssignment> {
  const model = modelSwaps(task)
  if (!model) return new Map()
  const answer = await solveMilp(model.lpText, { timeLimitSeconds: 5 })
  if (answer.status !== 'optimal') throw new Error(answer.status)
  return readAssignment(model, answer.columns)
}

describe('stand-ins for several threads together', () => {
  it('serves both where the nearest for one is the only one for the other', async () => {
    // Nearest first, m1 would take p at 2 and leave m2 with nothing within 5.
    const candidates = [grey('p', 52), grey('q', 46)]
    const task = taskOf(missing('m1', 50, candidates), missing('m2', 56, candidates))
    expect(await assigned(task)).toEqual(
      new Map([
        ['m1', 'q'],
        ['m2', 'p'],
      ]),
    )
  })

  it('crosses over in fibre only where nothing of the same serves, and says so of the nearer one', async () => {
    const candidates = [grey('silk', 50.5, { fibre: 'silk' }), grey('cotton', 53)]
    const task = taskOf(missing('m1', 50, candidates))
    const assignment = await assigned(task)
    expect(assignment.get('m1')).toBe('cotton')
    const [explained] = explainAssignment(task, assignment)
    expect(explained?.nearer.map(({ candidate }) => candidate.thread.threadId)).toEqual(['silk'])
    expect(explained?.nearer[0]?.verdict.isAccepted).toBe(true)
    const alone = await assigned(taskOf(missing('m1', 50, candidates.slice(0, 1))))
    expect(alone.get('m1')).toBe('silk')
  })

  it('keeps clear of a thread that stays as charted because nothing serves it', async () => {
    // m2 stays at 53; p at 52 would come within 3 of it.
    const task = taskOf(missing('m1', 49, [grey('p', 52), grey('q', 46)]), missing('m2', 53, []))
    expect(await assigned(task)).toEqual(
      new Map([
        ['m1', 'q'],
        ['m2', null],
      ]),
    )
  })

  it('keeps clear of what was chosen by hand, and leaves alone what is to be bought', async () => {
    const hand = grey('h', 47)
    const chosen: SwapColour = { ...missing('m2', 44, []), state: 'chosen', candidate: hand, candidates: [] }
    const bought: SwapColour = { ...missing('m3', 70, []), state: 'bought', candidates: [grey('r', 70)] }
    const task = taskOf(missing('m1', 50, [grey('p', 49), grey('q', 53)]), chosen, bought)
    const assignment = await assigned(task)
    expect([...assignment]).toEqual([['m1', 'q']])
    const explained = explainAssignment(task, assignment)
    expect(explained.map(({ chosen: one }) => one?.candidate.thread.threadId ?? null)).toEqual(['q', 'h', null])
    expect(explained[2]?.others.map(({ candidate }) => candidate.thread.threadId)).toEqual(['r'])
  })

  it('has nothing to solve where nothing could stand in', () => {
    expect(modelSwaps(taskOf(missing('m1', 50, [grey('far', 80)])))).toBeNull()
  })
})

describe('candidates', () => {
  it('are the usable ones, nearest first, then those that were named', () => {
    const pool = new SwapPool([grey('a', 53), grey('b', 51), grey('far', 80), grey('unlike', 50, { dyeing: 'overdyed' })])
    const ids = pool
      .near(aThread('m1', lab(50, 0, 0)), ['far', 'nowhere'], ({ line }) => line.dyeing === 'solid')
      .map(({ thread }) => thread.threadId)
    expect(ids).toEqual(['b', 'a', 'far'])
  })

  it('are asked for with the strands that most of the thread is worked with, for all copies', () => {
    const line = (id: string, strands: number) => ({
      id,
      symbol: id,
      tally: { full: 1 },
      threads: [{ threadId: 't', strands, stated: null }],
    })
    const list = { id: 'l', designId: 'd', name: 'Cotton', keyLines: [line('outline', 1), line('cross', 2)] }
    const part = (keyLineId: string, strandTenths: number) =>
      ({ kind: 'assumed', keyLineId, symbol: null, strandTenths, putUpStrandTenths: strandTenths }) as const
    const threadNeed: ThreadNeed = {
      threadId: 't',
      strandTenths: 9_000,
      leastStrandTenths: 0,
      certainty: 'measured',
      from: [part('outline', 1_000), part('cross', 8_000)],
    }
    expect(swapNeedOf(threadNeed, list, 3)).toEqual({ strandTenths: 27_000, strands: 2 })
  })
})
