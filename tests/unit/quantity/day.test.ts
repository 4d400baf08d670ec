import { describe, expect, it } from 'vitest'
import { addDays, daysBetween, isDay } from '#lib/quantity/day'

describe('days of the calendar', () => {
  it('are counted on and back over leap days, and never past what four figures of a year can say', () => {
    expect(addDays('2024-02-28', 1)).toBe('2024-02-29')
    expect(addDays('2026-03-01', -1)).toBe('2026-02-28')
    expect(addDays('1900-02-28', 1)).toBe('1900-03-01')
    expect(addDays('9999-12-31', 60)).toBe('9999-12-31')
    expect(addDays('0000-01-02', -9)).toBe('0000-01-01')
    expect(daysBetween('2026-11-30', '2027-11-30')).toBe(365)
  })

  it('are refused when the calendar has no such day', () => {
    for (const text of ['2026-02-29', '2026-13-01', '26-01-01', '2026-1-1', '', '+010000-02'])
      expect([text, isDay(text)]).toEqual([text, false])
    expect(() => addDays('2026-02-29', 1)).toThrow(RangeError)
    expect(() => addDays('2026-02-28', 0.5)).toThrow(RangeError)
  })
})
