import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { startBy, weeksFor } from '#lib/planning/pace/finish-dates'
import { levelSchedule, type ScheduleJob } from '#lib/planning/pace/schedule'
import { addDays } from '#lib/quantity/day'

const today = '2026-06-01'
const week = (count: number): string => addDays(today, 7 * count)

/** Small enough to try every way of sharing out the weeks: works of a few units, a few units to a week. */
const smallWorld = fc.record({
  aWeek: fc.integer({ min: 1, max: 3 }),
  works: fc.array(
    fc.record({
      left: fc.integer({ min: 1, max: 4 }),
      from: fc.integer({ min: 0, max: 3 }),
      span: fc.integer({ min: 0, max: 5 }),
    }),
    { minLength: 1, maxLength: 4 },
  ),
})

/** The smallest greatest lateness in weeks of any way at all to share the weeks out, by trying them. */
function leastLateness(aWeek: number, works: { left: number; from: number; due: number }[]): number {
  const mostWeeks = Math.max(...works.map(({ from }) => from)) + works.reduce((sum, { left }) => sum + left, 0) + 1
  const known = new Map<string, number>()
  /** With so much left of each at the start of a week; what is done has its lateness counted already. */
  const from = (at: number, left: number[]): number => {
    if (left.every((units) => units === 0)) return Number.NEGATIVE_INFINITY
    if (at > mostWeeks) return Number.POSITIVE_INFINITY
    const key = `${at} ${left}`
    const before = known.get(key)
    if (before !== undefined) return before
    let best = Number.POSITIVE_INFINITY
    const share = (which: number, room: number, rest: number[]) => {
      if (which === works.length) {
        const late = works.flatMap(({ due }, one) => ((left[one] as number) > 0 && rest[one] === 0 ? [at + 1 - due] : []))
        best = Math.min(best, Math.max(from(at + 1, rest), ...late))
        return
      }
      const most = (works[which]?.from as number) <= at ? Math.min(room, rest[which] as number) : 0
      for (let units = 0; units <= most; units++) {
        const next = [...rest]
        next[which] = (rest[which] as number) - units
        share(which + 1, room - units, next)
      }
    }
    share(0, aWeek, left)
    known.set(key, best)
    return best
  }
  return from(
    0,
    works.map(({ left }) => left),
  )
}

describe('earliest due first', () => {
  it('has the least greatest lateness of every way to share the weeks: if any keeps all dates, it does', () => {
    let [kept, missed] = [0, 0]
    fc.assert(
      fc.property(smallWorld, ({ aWeek, works }) => {
        const due = works.map((work) => ({ ...work, due: work.from + work.span }))
        const jobs = due.map(
          ({ left, from, due: by }, at): ScheduleJob => ({ id: `${at}`, left, fromOn: week(from), stitchedBy: week(by) }),
        )
        const schedule = levelSchedule({ jobs, pace: { amount: aWeek, weeks: 1 }, away: [], today })
        const ours = Math.max(...schedule.jobs.map(({ daysLate }) => daysLate as number)) / 7
        expect(ours).toBe(leastLateness(aWeek, due))
        if (ours <= 0) kept++
        else missed++
      }),
      { seed: 7, numRuns: 400 },
    )
    // Worlds of both kinds, or the sentence above says little.
    expect(Math.min(kept, missed)).toBeGreaterThan(60)
  })
})

const someDays = fc.integer({ min: 0, max: 300 })
const world = fc.record({
  pace: fc.record({ amount: fc.integer({ min: 1, max: 9_000 }), weeks: fc.integer({ min: 1, max: 12 }) }),
  jobs: fc.array(
    fc.record({
      left: fc.integer({ min: 0, max: 9_000 }),
      fromOn: fc.option(someDays.map((days) => addDays(today, days))),
      stitchedBy: fc.option(someDays.map((days) => addDays(today, days))),
    }),
    { maxLength: 8 },
  ),
  away: fc.array(
    fc.tuple(someDays, fc.integer({ min: 0, max: 30 })).map(([days, more]) => ({
      fromOn: addDays(today, days),
      toOn: addDays(today, days + more),
    })),
    { maxLength: 4 },
  ),
})
const named = (jobs: Omit<ScheduleJob, 'id'>[]): ScheduleJob[] => jobs.map((one, at) => ({ ...one, id: `${at}` }))

describe('a level schedule', () => {
  it('shares out exactly what is left, in spans that follow one another, none before its work comes out', () => {
    fc.assert(
      fc.property(world, ({ pace, jobs, away }) => {
        const schedule = levelSchedule({ jobs: named(jobs), pace, away, today })
        schedule.jobs.forEach(({ spans, endsOn }, at) => {
          const { left, fromOn } = jobs[at] as (typeof jobs)[number]
          if (endsOn === null) return
          // Each span is rounded to whole stitches by itself.
          const sum = spans.reduce((total, { amount }) => total + amount, 0)
          expect(Math.abs(sum - left)).toBeLessThanOrEqual(spans.length)
          for (const [one, span] of spans.entries()) {
            expect(span.beginsOn >= (fromOn ?? today)).toBe(true)
            expect(span.endsOn > span.beginsOn).toBe(true)
            if (one > 0) expect(span.beginsOn >= (spans[one - 1]?.beginsOn ?? '')).toBe(true)
          }
        })
      }),
      { seed: 8, numRuns: 300 },
    )
  })

  it('never works on what is not due at the cost of what is', () => {
    fc.assert(
      fc.property(world, ({ pace, jobs, away }) => {
        const all = named(jobs)
        const onlyDue = levelSchedule({ jobs: all.filter(({ stitchedBy }) => stitchedBy !== null), pace, away, today })
        const whole = levelSchedule({ jobs: all, pace, away, today })
        for (const one of onlyDue.jobs) expect(whole.jobs.find(({ id }) => id === one.id)).toEqual(one)
        expect(whole.gaps).toEqual(onlyDue.gaps)
      }),
      { seed: 9, numRuns: 200 },
    )
  })

  it('begins a single work by the day that due − weeks − days away gives, and is in time exactly until then', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 9_000 }), world, someDays, (left, { pace, away }, days) => {
        const stitchedBy = addDays(today, days)
        const [one] = levelSchedule({ jobs: [{ id: 'one', left, fromOn: null, stitchedBy }], pace, away, today }).jobs
        const weeks = weeksFor(left, pace)
        if (weeks > 5_200) return
        const start = startBy({ dueOn: stitchedBy, finishingWeeks: 0, bufferWeeks: 0 }, weeks, away)
        expect(one?.latestStart).toBe(start.day)
        expect((one?.daysLate as number) <= 0).toBe(start.day >= today)
      }),
      { seed: 10, numRuns: 300 },
    )
  })

  it('keeps every date while no last day to begin has gone by, where all works are out', () => {
    let held = 0
    fc.assert(
      fc.property(world, ({ pace, jobs, away }) => {
        const out = named(jobs).map((one) => ({ ...one, fromOn: null }))
        const { jobs: planned } = levelSchedule({ jobs: out, pace, away, today })
        const due = planned.filter(({ daysLate }) => daysLate !== null)
        if (!due.every(({ latestStart }) => (latestStart as string) >= today)) return
        for (const { daysLate } of due) expect(daysLate as number).toBeLessThanOrEqual(0)
        if (due.length > 1) held++
      }),
      { seed: 11, numRuns: 300 },
    )
    expect(held).toBeGreaterThan(20)
  })
})
