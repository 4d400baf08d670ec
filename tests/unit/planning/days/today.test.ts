import { describe, expect, it } from 'vitest'
import { findReady } from '#lib/planning/days/ready-to-start'
import { planToday, type TodayFacts } from '#lib/planning/days/today'
import { overlapOf, sumWeek, type WeekMovement, weekAround } from '#lib/planning/days/week'

const nothing: TodayFacts = {
  ...{ timers: [], works: [], loans: [], orders: [], parts: [], bags: [], counts: [], lists: [], belowMinimum: [], ready: [] },
}
const today = '2026-09-08'
const work = (id: string, dueOn: string, startBy: string | null = null) => ({ id, name: `Work ${id}`, dueOn, startBy })

describe('today', () => {
  it('holds nothing where nothing is', () => {
    expect(planToday(nothing, today)).toEqual([])
  })

  it('parts what is over from what is due within a week: today is not over', () => {
    const works = [work('over', '2026-09-07'), work('now', '2026-09-08'), work('last', '2026-09-15'), work('later', '2026-09-16')]
    expect(planToday({ ...nothing, works }, today)).toEqual([
      { kind: 'work-overdue', count: 1, names: ['Work over'], id: 'over', on: '2026-09-07' },
      { kind: 'work-due', count: 2, names: ['Work now', 'Work last'], id: null, on: '2026-09-08' },
    ])
  })

  it('says to start scenario A7 on the earlier of its two days, and that the day is past the day after', () => {
    // Due 1 December: by 22 September at 2,300 a week, by 8 September at 1,725.
    const works = [work('geese', '2026-12-01', '2026-09-08')]
    const kinds = (on: string) => planToday({ ...nothing, works }, on).map(({ kind }) => kind)
    expect(kinds('2026-08-31')).toEqual([])
    expect(kinds('2026-09-01')).toEqual(['start-by'])
    expect(kinds('2026-09-08')).toEqual(['start-by'])
    expect(kinds('2026-09-09')).toEqual(['start-by-past'])
    // Once it is overdue, that is what there is to say.
    expect(kinds('2026-12-02')).toEqual(['work-overdue'])
  })

  it('puts the most pressing first, gives loans a fortnight, and names three at most, each once', () => {
    const named = (...names: string[]) => names.map((name, at) => ({ id: `${name}${at}`, name }))
    const lines = planToday(
      {
        ...nothing,
        ready: named('a', 'b', 'c', 'd'),
        bags: named('K-07'),
        timers: named('Nine Wrens'),
        loans: [
          { id: 'l1', name: 'Ines Coldwell', dueOn: '2026-09-22' },
          { id: 'l2', name: 'Ines Coldwell', dueOn: '2026-09-10' },
          { id: 'l3', name: 'Joss Tarrow', dueOn: '2026-09-23' },
        ],
        parts: [{ id: 'p', name: 'Wheel of Hours: part 3', dueOn: '2026-08-01' }],
      },
      today,
    )
    expect(lines.map(({ kind, count }) => [kind, count])).toEqual([
      ['timer', 1],
      ['part-due', 1],
      ['loan-due', 2],
      ['put-back', 1],
      ['ready', 4],
    ])
    expect(lines[2]).toMatchObject({ names: ['Ines Coldwell'], id: null, on: '2026-09-10' })
    expect(lines[4]).toMatchObject({ names: ['a', 'b', 'c'], id: null, on: null })
  })
})

describe('ready to start', () => {
  it('has every thread promised or free, and cloth', () => {
    const needs = [
      { threadId: 'red', strandTenths: 500 },
      { threadId: 'blue', strandTenths: 300 },
    ]
    const works = [
      { id: 'promised', needs, hasCloth: true },
      { id: 'free', needs: needs.slice(1), hasCloth: true },
      { id: 'short', needs, hasCloth: true },
      { id: 'no cloth', needs: needs.slice(1), hasCloth: false },
      { id: 'no list', needs: null, hasCloth: true },
      { id: 'empty list', needs: [], hasCloth: true },
    ]
    const promised: Record<string, number> = { 'promised red': 400, 'promised blue': 300, 'short red': 399 }
    const free: Record<string, number> = { red: 99, blue: 300 }
    const ready = (freeRed: number) =>
      findReady(
        works,
        (id, threadId) => promised[`${id} ${threadId}`] ?? 0,
        (threadId) => (threadId === 'red' ? freeRed : (free[threadId] ?? 0)),
      ).map(({ id }) => id)
    // 400 + 100 of red; 399 + 99 is two tenths short, one of which rounding may have taken.
    expect(ready(100)).toEqual(['promised', 'free', 'short'])
    expect(ready(99)).toEqual(['promised', 'free'])
  })
})

describe('a week', () => {
  it('is seven days with the last of them, and seven after it', () => {
    expect(weekAround('2027-01-03')).toEqual({
      past: { fromOn: '2026-12-28', toOn: '2027-01-03' },
      next: { fromOn: '2027-01-04', toOn: '2027-01-10' },
    })
  })

  it('counts put-ups that came in, and each thing once that was taken out or came back', () => {
    const moved = (
      kind: WeekMovement['kind'],
      thingId: string,
      wholeDelta = 0,
      over: Partial<WeekMovement> = {},
    ): WeekMovement => ({
      ...{ kind, noun: 'thread', thingId, wholeDelta, hasPart: false },
      ...over,
    })
    expect(
      sumWeek([
        moved('receive', 'a', 6),
        // A part by itself is one thing that came in.
        moved('receive', 'b', 0, { hasPart: true }),
        moved('receive', 'c', 1, { noun: 'chart' }),
        moved('take', 'a', 0),
        moved('take', 'a', 0),
        moved('take', 'a', 0, { noun: 'cloth' }),
        moved('return', 'b', 0),
        moved('move', 'd', 0),
      ]),
    ).toEqual({ received: { thread: 7, cloth: 0, chart: 1, notion: 0 }, takenOut: 2, cameBack: 1 })
  })

  it('has of a time away the days that fall in it', () => {
    const week = { fromOn: '2026-09-09', toOn: '2026-09-15' }
    expect(overlapOf({ fromOn: '2026-09-01', toOn: '2026-09-10' }, week)).toEqual({ fromOn: '2026-09-09', toOn: '2026-09-10' })
    expect(overlapOf({ fromOn: '2026-09-15', toOn: '2026-09-20' }, week)).toEqual({ fromOn: '2026-09-15', toOn: '2026-09-15' })
    expect(overlapOf({ fromOn: '2026-09-16', toOn: '2026-09-20' }, week)).toBeNull()
  })
})
