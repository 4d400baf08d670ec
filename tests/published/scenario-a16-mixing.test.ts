import { describe, expect, it } from 'vitest'
import type { ThreadList } from '#lib/chart/thread-list'
import { judgeInTask, modelSwaps, type SwapColour, type SwapTask } from '#lib/coverage/assign-swaps'
import { alternativesOf, SwapPool } from '#lib/coverage/swap-candidates'
import { aThread, lab } from '../unit/thread/swap-threads'

// Source: the project's trade notes, scenario A16 "Two lists": mixing a design's thread lists line by line is allowed only with the
// keep-apart check of A5. The cotton list is one thread short; the hand-dyed list has something for its symbol.

const aList = (name: string, codes: readonly string[]): ThreadList => ({
  id: name,
  designId: 'Orchard Gate',
  name,
  keyLines: codes.map((code, at) => ({
    id: `${name} ${at}`,
    symbol: 'abc'[at] ?? null,
    tally: { full: 200 },
    threads: [{ threadId: code, strands: 2, stated: null }],
  })),
})
// Two symbols of the hand-dyed list share a thread.
const cotton = aList('cotton', ['c1', 'c2', 'c3'])
const handDyed = aList('hand-dyed', ['d1', 'd1', 'd2'])

const plenty = { freeStrandTenths: 480_000, bestLotStrandTenths: 480_000, isSomeHeld: false }
const dyed = { dyeing: 'overdyed' as const, lotsMatter: true }
const need = { strandTenths: 60_000, strands: 2 }

function taskWith(dyedLab: { L: number; a: number; b: number }): SwapTask {
  const candidates = [{ thread: aThread('d1', dyedLab, dyed), stock: plenty, isDesignersOwn: true }]
  const colours: SwapColour[] = [
    { charted: aThread('c1', lab(46, 38, 18)), need, state: 'missing', candidates },
    { charted: aThread('c2', lab(70, 10, 40)), need, state: 'kept' },
    { charted: aThread('c3', lab(60, 36, 20)), need, state: 'kept' },
  ]
  return { colours, cloth: lab(90, 0, 8), merges: [] }
}
const judged = (task: SwapTask) => {
  const [colour] = task.colours
  if (colour?.state !== 'missing' || !colour.candidates[0]) throw new Error('nothing is missing')
  return judgeInTask(task, colour, colour.candidates[0], new Map())
}

describe('scenario A16: mixing two thread lists line by line', () => {
  it('offers for a missing thread what the other list works its symbol in', () => {
    expect(alternativesOf('c1', cotton, [cotton, handDyed])).toEqual(['d1'])
    expect(alternativesOf('c2', cotton, [cotton, handDyed])).toEqual(['d1'])
    const pool = new SwapPool([{ thread: aThread('d1', lab(20, 0, 0), dyed), stock: plenty }])
    // Far from the cotton's colour, so only its being the designer's own brings it up.
    expect(pool.near(aThread('c1', lab(46, 38, 18)))).toEqual([])
    expect(pool.near(aThread('c1', lab(46, 38, 18)), ['d1'])).toHaveLength(1)
  })

  it('takes it where it keeps clear of the colours kept from the first list, however far from the charted one', () => {
    const verdict = judged(taskWith(lab(40, 30, 4)))
    expect(verdict.isAccepted).toBe(true)
    expect(verdict.findings).toContainEqual(expect.objectContaining({ kind: 'designers-own', weight: 'passes' }))
    expect(verdict.findings).toContainEqual(expect.objectContaining({ kind: 'brings-mottling', weight: 'flagged' }))
  })

  it('refuses it where it comes too near one of them', () => {
    const task = taskWith(lab(59, 35, 20))
    const verdict = judged(task)
    expect(verdict.isAccepted).toBe(false)
    expect(verdict.findings).toContainEqual(expect.objectContaining({ kind: 'too-near', chartedThreadId: 'c3' }))
    expect(modelSwaps(task)).toBeNull()
  })

  it('never works two charted colours in the one thread the other list has for both, unless that was asked for', () => {
    const task = taskWith(lab(40, 30, 4))
    const shared: SwapTask = {
      ...task,
      colours: task.colours.map((colour): SwapColour => {
        const candidate = { thread: aThread('d1', lab(40, 30, 4), dyed), stock: plenty, isDesignersOwn: true }
        return colour.charted.threadId === 'c2' ? { ...colour, state: 'chosen', candidate, candidates: [candidate] } : colour
      }),
    }
    expect(judged(shared).findings).toContainEqual(expect.objectContaining({ kind: 'shared-thread', weight: 'rejects' }))
    expect(judged({ ...shared, merges: [['c1', 'c2']] }).isAccepted).toBe(true)
  })
})
