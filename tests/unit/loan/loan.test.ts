import { describe, expect, it } from 'vitest'
import { byUrgency, dueAfterWeeks, standingOf } from '#lib/loan/loan'
import { addDays, daysBetween } from '#lib/quantity/day'

const terms = (dueOn: string | null, closedOn: string | null = null) => ({ fromOn: '2026-03-03', dueOn, closedOn })

describe('the day a loan is due', () => {
  it('is the same weekday so many weeks on', () => {
    // Trade notes, A15: Tue 3 Mar 2026 for 8 weeks is due Tue 28 Apr.
    expect(dueAfterWeeks('2026-03-03', 8)).toBe('2026-04-28')
    // By the wall calendar: over the end of February of a leap year, and over a year's end.
    expect(dueAfterWeeks('2028-02-22', 1)).toBe('2028-02-29')
    expect(dueAfterWeeks('2026-12-29', 1)).toBe('2027-01-05')
  })
  it('wants whole weeks and a day of the calendar', () => {
    expect(() => dueAfterWeeks('2026-03-03', 0)).toThrow(RangeError)
    expect(() => dueAfterWeeks('2026-03-03', 1.5)).toThrow(RangeError)
    expect(() => addDays('2026-02-30', 1)).toThrow(RangeError)
    expect(() => daysBetween('2026-02-28', '3 Mar')).toThrow(RangeError)
  })
})

describe('how a loan stands', () => {
  it('counts days over from the day after it was due, and days left to that day', () => {
    expect(standingOf(terms('2026-04-28'), '2026-04-28')).toEqual({ kind: 'due-soon', daysLeft: 0 })
    expect(standingOf(terms('2026-04-28'), '2026-04-29')).toEqual({ kind: 'overdue', daysOver: 1 })
    expect(standingOf(terms('2026-04-28'), '2026-05-28')).toEqual({ kind: 'overdue', daysOver: 30 })
  })
  it('says due soon within a fortnight', () => {
    expect(standingOf(terms('2026-04-28'), '2026-04-14')).toEqual({ kind: 'due-soon', daysLeft: 14 })
    expect(standingOf(terms('2026-04-28'), '2026-04-13')).toEqual({ kind: 'out', daysLeft: 15 })
  })
  it('knows no day, and no lateness once closed', () => {
    expect(standingOf(terms(null), '2026-04-13')).toEqual({ kind: 'no-day' })
    expect(standingOf(terms('2026-04-28', '2026-06-01'), '2026-07-01')).toEqual({ kind: 'closed' })
  })
})

it('puts the longest overdue first, those without a day after those with one, the latest closed last of all', () => {
  const loans = [
    { id: 'closed early', ...terms('2026-03-10', '2026-03-09') },
    { id: 'no day', ...terms(null) },
    { id: 'later', ...terms('2026-06-01') },
    { id: 'closed late', ...terms('2026-03-10', '2026-03-20') },
    { id: 'sooner', ...terms('2026-03-11') },
  ]
  expect(loans.sort(byUrgency).map(({ id }) => id)).toEqual(['sooner', 'later', 'no day', 'closed late', 'closed early'])
})
