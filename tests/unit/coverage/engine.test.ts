import { describe, expect, it } from 'vitest'
import { CoverageEngine, type EngineThread } from '#lib/coverage/engine'
import type { ListNeeds } from '#lib/coverage/need-columns'
import { skein } from '#tests/unit/stock/batches'
import { held } from './held'

const aThread = (threadId: string, change: Partial<EngineThread> = {}): EngineThread => ({
  threadId,
  lotsMatter: false,
  putUpStrandTenths: skein,
  standInThreadIds: [],
  ...change,
})
const aList = (listId: string, designId: string, needs: Record<string, number>): ListNeeds => ({
  listId,
  designId,
  needs: Object.entries(needs).map(([threadId, putUps]) => ({ threadId, strandTenths: putUps * skein })),
})

describe('the coverage engine', () => {
  const threads = [aThread('0311'), aThread('0742', { standInThreadIds: ['1204'] }), aThread('1204')]

  it('answers the lists again that a changed thread, or one it stands in for, is used by', () => {
    const lists = [
      aList('l1', 'Nine Wrens', { '0311': 1 }),
      aList('l2', 'Little Barge', { '0742': 1 }),
      aList('l3', 'The Salt Road', {}),
    ]
    const engine = CoverageEngine.of({ threads, lists, stock: [] })
    engine.setThreadStock('1204', held('1204', 1))
    expect(engine.answerFor('Little Barge')?.best).toMatchObject({ status: 'swap', isStitchableWithSwaps: true })
    engine.setThreadStock('0311', held('0311', 1))
    expect(engine.answerFor('Nine Wrens')?.best).toMatchObject({ status: 'enough', isStitchable: true })
    engine.setThreadStock('0311', null)
    expect(engine.answerFor('Nine Wrens')?.best).toMatchObject({ status: 'none', shortPutUps: 1 })
    expect(engine.answerFor('Fourth Sunday')).toBeNull()
  })

  it('gives the nearer of two lists as the best, and the other once it is nearer', () => {
    const lists = [aList('cotton', 'Orchard Gate', { '0311': 1, '1204': 2 }), aList('dyed', 'Orchard Gate', { '0742': 3 })]
    const engine = CoverageEngine.of({ threads, lists, stock: [held('0311', 1)] })
    expect(engine.answerFor('Orchard Gate')?.best).toMatchObject({ listId: 'cotton', shortPutUps: 2 })
    engine.setStock([held('0742', 3)])
    expect(engine.answerFor('Orchard Gate')?.best.listId).toBe('dyed')
    engine.removeList('Orchard Gate', 'dyed')
    expect(engine.answerFor('Orchard Gate')?.lists).toHaveLength(1)
  })

  it('sums a thread that a list names twice', () => {
    const needs = [
      { threadId: '0311', strandTenths: skein },
      { threadId: '0311', strandTenths: skein },
    ]
    const engine = CoverageEngine.of({ threads, lists: [{ listId: 'l1', designId: 'd1', needs }], stock: [held('0311', 1)] })
    expect(engine.answerFor('d1')?.best).toMatchObject({ threadCount: 1, status: 'short', shortPutUps: 1 })
  })

  it('refuses what it cannot place', () => {
    const engine = CoverageEngine.of({ threads, lists: [], stock: [] })
    expect(() => engine.setThreadStock('9999', null)).toThrow(RangeError)
    expect(() => engine.setList(aList('l1', 'd1', { '9999': 1 }))).toThrow(RangeError)
    expect(() => engine.setList({ listId: 'l1', designId: 'd1', needs: [{ threadId: '0311', strandTenths: 0.5 }] })).toThrow(
      RangeError,
    )
    expect(() => CoverageEngine.of({ threads, lists: [aList('l', 'd', {}), aList('l', 'd', {})], stock: [] })).toThrow(RangeError)
    expect(() => engine.setThread(aThread('0311', { putUpStrandTenths: 0 }))).toThrow(RangeError)
    engine.removeList('never there', 'nor this')
    expect(engine.index.listCount).toBe(0)
  })
})
