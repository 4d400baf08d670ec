import { describe, expect, it } from 'vitest'
import { inOrderDone, type LoggedWork, notInLog, planLog, progressOf, sumOfLog } from '#lib/project/work-log'

const entry = (id: string, over: Partial<LoggedWork> = {}): LoggedWork => ({
  ...{ id, day: '2026-11-30', stitches: 0, minutes: 0, donePerMille: null },
  ...over,
})

describe('a log and the totals of its project', () => {
  it('adds to what was done before it began', () => {
    const first = entry('a', { stitches: 300, minutes: 90 })
    const planned = planLog({
      totals: { stitchesDone: 3_000, hoursTenths: 315 },
      before: [],
      after: [first],
      stitchesTotal: null,
    })
    // 31.5 hours and an hour and a half.
    expect(planned).toEqual({ totals: { stitchesDone: 3_300, hoursTenths: 330 }, settled: [] })
    expect(notInLog(planned.totals, [first])).toEqual({ stitchesDone: 3_000, hoursTenths: 315 })
  })

  it('loses nothing of many short sittings: ten of two minutes are twenty, 0.3 h', () => {
    const sittings = Array.from({ length: 10 }, (_, at) => entry(`s${at}`, { minutes: 2 }))
    expect(sumOfLog(sittings)).toEqual({ stitchesDone: 0, hoursTenths: 3 })
    let totals = { stitchesDone: 0, hoursTenths: 0 }
    for (let many = 1; many <= 10; many++)
      totals = planLog({
        ...{ totals, before: sittings.slice(0, many - 1), after: sittings.slice(0, many), stitchesTotal: null },
      }).totals
    expect(totals.hoursTenths).toBe(3)
  })

  it('keeps a typed total as a correction of the log', () => {
    const log = [entry('a', { stitches: 500 })]
    expect(notInLog({ stitchesDone: 400, hoursTenths: 0 }, log).stitchesDone).toBe(-100)
    const more = planLog({
      ...{ totals: { stitchesDone: 400, hoursTenths: 0 }, before: log, after: [...log, entry('b', { stitches: 50 })] },
      stitchesTotal: null,
    })
    expect(more.totals.stitchesDone).toBe(450)
    // Taken out, the log leaves nothing to correct.
    const none = planLog({ totals: { stitchesDone: 400, hoursTenths: 0 }, before: log, after: [], stitchesTotal: null })
    expect(none.totals.stitchesDone).toBe(0)
  })

  it('gives a percentage the stitches that lead up to it, and again when something before it changes', () => {
    const counted = entry('a', { day: '2026-11-01', stitches: 500 })
    const read = entry('b', { day: '2026-11-02', donePerMille: 200 })
    const plan = (before: LoggedWork[], after: LoggedWork[], stitchesDone: number) =>
      planLog({ totals: { stitchesDone, hoursTenths: 0 }, before, after, stitchesTotal: 10_000 })
    // 1,000 before the log, 500 counted: 20 per cent of 10,000 are 2,000, so 500 more.
    expect(plan([counted], [counted, read], 1_500)).toEqual({
      totals: { stitchesDone: 2_000, hoursTenths: 0 },
      settled: [{ id: 'b', stitches: 500 }],
    })
    const settled = { ...read, stitches: 500 }
    expect(plan([counted, settled], [settled], 2_000)).toEqual({
      totals: { stitchesDone: 2_000, hoursTenths: 0 },
      settled: [{ id: 'b', stitches: 1_000 }],
    })
    // Unpicked down to 15 per cent.
    const less = entry('c', { day: '2026-11-03', donePerMille: 150 })
    expect(plan([counted, settled], [counted, settled, less], 2_000)).toEqual({
      totals: { stitchesDone: 1_500, hoursTenths: 0 },
      settled: [{ id: 'c', stitches: -500 }],
    })
  })
})

describe('how far a work has come', () => {
  it('is told in stitches where they are known', () => {
    const entries = [entry('b', { stitches: 20 }), entry('a', { day: '2026-11-29', stitches: 10, minutes: 6 })]
    expect(inOrderDone(entries).map(({ id }) => id)).toEqual(['a', 'b'])
    expect(progressOf({ entries, stitchesDone: 130, stitchesTotal: null })).toEqual({
      ...{ unit: 'stitches', done: 130, total: null },
      gains: [
        { day: '2026-11-29', amount: 10, minutes: 6 },
        { day: '2026-11-30', amount: 20, minutes: 0 },
      ],
    })
  })

  it('is told in thousandths where only a percentage is', () => {
    const entries = [
      entry('a', { day: '2026-11-01', donePerMille: 100 }),
      entry('b', { day: '2026-11-08', minutes: 60 }),
      entry('c', { day: '2026-11-15', donePerMille: 175 }),
    ]
    expect(progressOf({ entries, stitchesDone: 0, stitchesTotal: null })).toEqual({
      ...{ unit: 'per-mille', done: 175, total: 1_000 },
      gains: [
        { day: '2026-11-01', amount: 100, minutes: 0 },
        { day: '2026-11-08', amount: 0, minutes: 60 },
        { day: '2026-11-15', amount: 75, minutes: 0 },
      ],
    })
  })
})
