import fc from 'fast-check'
import { expect, it } from 'vitest'
import { mayLendChart } from '#lib/loan/chart-out'
import { clashOf } from '#lib/loan/clash'
import { dueAfterWeeks, standingOf } from '#lib/loan/loan'
import { addDays, daysBetween } from '#lib/quantity/day'

const seed = 20261129
const day = fc.integer({ min: 0, max: 60_000 }).map((days) => addDays('1950-01-01', days))

/** The slow obvious version: one step of the calendar at a time. */
function stepped(from: string, days: number): string {
  const at = new Date(`${from}T12:00:00Z`)
  for (let step = 0; step < days; step++) at.setUTCDate(at.getUTCDate() + 1)
  return at.toISOString().slice(0, 10)
}

it('goes on by days as one steps through the calendar, and back again', () => {
  fc.assert(
    fc.property(day, fc.integer({ min: 0, max: 800 }), (from, days) => {
      const to = addDays(from, days)
      expect(to).toBe(stepped(from, days))
      expect(daysBetween(from, to)).toBe(days)
      expect(addDays(to, -days)).toBe(from)
    }),
    { seed, numRuns: 300 },
  )
})

it('is due on the weekday it was lent on', () => {
  fc.assert(
    fc.property(day, fc.integer({ min: 1, max: 104 }), (from, weeks) => {
      const due = dueAfterWeeks(from, weeks)
      expect(new Date(due).getUTCDay()).toBe(new Date(from).getUTCDay())
      expect(standingOf({ fromOn: from, dueOn: due, closedOn: null }, addDays(due, 1))).toEqual({ kind: 'overdue', daysOver: 1 })
    }),
    { seed, numRuns: 300 },
  )
})

it('clashes on as many days as, counted one by one, are both of the loan and of the plan', () => {
  fc.assert(
    fc.property(day, fc.integer({ min: 0, max: 200 }), fc.integer({ min: -100, max: 300 }), (fromOn, length, offset) => {
      const untilOn = addDays(fromOn, length)
      const plannedOn = addDays(fromOn, offset)
      let days = 0
      for (let at = 0; at <= length; at++) if (addDays(fromOn, at) >= plannedOn) days++
      expect(clashOf({ fromOn, untilOn }, plannedOn)?.days ?? 0).toBe(days)
    }),
    { seed, numRuns: 300 },
  )
})

it('never has more copies out than are held, however they are lent and come back', () => {
  const step = fc.record({ isLent: fc.boolean(), count: fc.integer({ min: 1, max: 5 }) })
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 6 }), fc.array(step, { maxLength: 40 }), (copies, steps) => {
      const loans: number[] = []
      const out = () => loans.reduce((sum, count) => sum + count, 0)
      for (const { isLent, count } of steps) {
        if (!isLent) loans.shift()
        else {
          const chart = { kind: 'leaflet', copies, copiesOut: out(), awayAt: null, hasHome: true } as const
          const may = mayLendChart(chart, count)
          if (may.ok) loans.push(count)
          expect(may.ok).toBe(count <= copies - chart.copiesOut)
          if (may.ok) expect(may.value.leavesNone).toBe(out() === copies)
        }
        expect(out()).toBeLessThanOrEqual(copies)
      }
    }),
    { seed, numRuns: 300 },
  )
})
