import { describe, expect, it } from 'vitest'
import type { PlaceDue } from '#lib/stock/count-due'
import { placesDue } from '#lib/stock/count-due'
import { type CountedLine, countLinesOf, findSwapSuspects, hasMovedSince, isUndecided } from '#lib/stock/stocktake'

const line = (id: string, placeId: string, difference: number, change: Partial<CountedLine> = {}): CountedLine => ({
  ...{ id, placeId, expected: 5, counted: 5 + difference },
  thread: { id, makerName: 'Larkholm', lineName: 'stranded', code: id },
  ...change,
})
const never = () => false

describe('suspected swaps', () => {
  it('says how two lines are near each other, the nearest reason first', () => {
    const nearness = (a: CountedLine, b: CountedLine, areSideBySide: (a: string, b: string) => boolean = never) =>
      findSwapSuspects([a, b], areSideBySide).map((suspect) => suspect.nearness)
    const thread = { id: 't', makerName: 'Larkholm', lineName: 'stranded', code: '0311' }
    expect(nearness(line('1', 'A', -1, { thread }), line('2', 'A', 1, { thread }))).toEqual(['same-thread'])
    expect(nearness(line('1', 'A', -1), line('2', 'A', 1))).toEqual(['same-place'])
    expect(nearness(line('1', 'A', -1), line('2', 'B', 1), () => true)).toEqual(['neighbouring-place'])
    expect(nearness(line('1', 'A', -1), line('2', 'B', 1))).toEqual(['neighbouring-code'])
    const other = { id: 'o', makerName: 'Brindlequay', lineName: 'silk', code: '2' }
    expect(nearness(line('1', 'A', -1), line('2', 'B', 1, { thread: other }))).toEqual([])
  })

  it('does not call codes neighbours that have another between them in the count', () => {
    const lines = [line('0311', 'A', -2), line('0500', 'B', 0), line('0742', 'C', 2)]
    expect(findSwapSuspects(lines, never)).toEqual([])
  })

  it('takes a thing found without a record as one over', () => {
    const found = line('f', 'A', 0, { thread: null, expected: 0, counted: 2 })
    expect(findSwapSuspects([line('0311', 'A', -2), found], never)).toEqual([
      { underId: '0311', overId: 'f', putUps: 2, nearness: 'same-place' },
    ])
  })
})

describe('stock that moved while it was counted', () => {
  const began = new Date('2026-03-02T09:00:00Z')
  const still = { wholePutUps: 5, placeId: 'A', isGone: false, lastMovedAt: new Date('2026-03-01T09:00:00Z') }
  const counted = { placeId: 'A', expected: 5 }
  it('is still where nothing happened since', () => {
    expect(hasMovedSince(counted, still, began)).toBe(false)
    expect(hasMovedSince(counted, { ...still, lastMovedAt: null }, began)).toBe(false)
  })
  it('moved when taken and brought back, taken elsewhere, changed or laid with another', () => {
    expect(hasMovedSince(counted, { ...still, lastMovedAt: new Date('2026-03-02T10:00:00Z') }, began)).toBe(true)
    expect(hasMovedSince(counted, { ...still, placeId: 'K-07' }, began)).toBe(true)
    expect(hasMovedSince(counted, { ...still, wholePutUps: 4 }, began)).toBe(true)
    expect(hasMovedSince(counted, { ...still, isGone: true }, began)).toBe(true)
  })
})

it('leaves nothing to decide where count and record agree, or nobody counted', () => {
  const decided = (counted: number | null, outcome: 'accepted' | 'recount' | 'left' | null) =>
    isUndecided({ expected: 5, counted, countedBy: null, outcome })
  expect([decided(5, null), decided(null, null), decided(4, 'accepted'), decided(4, 'left'), decided(5, 'recount')]).toEqual(
    Array.from({ length: 5 }, () => false),
  )
  expect([decided(4, null), decided(null, 'recount'), decided(4, 'recount')]).toEqual([true, true, true])
})

it('counts a batch where it lies, and none that is used up', () => {
  const batch = (id: string, home: string | null, current: string | null, wholePutUps: number) => ({
    ...{ id, wholePutUps, partCertainty: 'none' as const, homePlaceId: home, currentPlaceId: current },
  })
  const lines = countLinesOf(
    [
      batch('at home', 'A', 'A', 2),
      batch('nothing else said', 'A', null, 3),
      batch('out', 'A', 'K-07', 1),
      batch('guest', 'B', 'A', 4),
      batch('used up', 'A', 'A', 0),
      { ...batch('part only', 'A', 'A', 0), partCertainty: 'some' as const },
      batch('nowhere', null, null, 1),
    ],
    new Set(['A']),
  )
  expect(lines.map(({ batchId, expected }) => [batchId, expected])).toEqual([
    ['at home', 2],
    ['nothing else said', 3],
    ['guest', 4],
    ['part only', 0],
  ])
})

it('lists places not counted for a year, those with what sells first', () => {
  const since = new Date('2025-11-29T00:00:00Z')
  const at = (day: string) => new Date(`${day}T12:00:00Z`)
  const due = placesDue(
    [
      { placeId: 'A', countedAt: at('2026-01-05'), abc: 'A' },
      { placeId: 'B', countedAt: at('2024-06-01'), abc: 'C' },
      { placeId: 'B', countedAt: at('2023-06-01'), abc: 'C' },
      { placeId: 'B', countedAt: null, abc: 'C' },
      { placeId: 'C', countedAt: null, abc: 'A' },
      { placeId: 'C', countedAt: at('2026-02-01'), abc: 'C' },
    ],
    since,
  )
  expect(due).toEqual<PlaceDue[]>([
    { placeId: 'C', batches: 2, due: 1, never: 1, dueA: 1, oldest: null },
    { placeId: 'B', batches: 3, due: 3, never: 1, dueA: 0, oldest: at('2023-06-01') },
  ])
})
