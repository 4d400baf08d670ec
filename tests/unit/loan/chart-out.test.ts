import { describe, expect, it } from 'vitest'
import { isChartWithSomebody, type LendableChart, mayLendChart } from '#lib/loan/chart-out'
import { awayOf, clashOf } from '#lib/loan/clash'

const aChart = (over: Partial<LendableChart> = {}): LendableChart => ({
  kind: 'booklet',
  copies: 1,
  copiesOut: 0,
  awayAt: null,
  hasHome: true,
  ...over,
})

describe('whether a chart may be lent', () => {
  it('lends the one copy, which leaves none', () => {
    expect(mayLendChart(aChart(), 1)).toEqual({ ok: true, value: { leavesNone: true } })
  })
  it('lends no file, wherever it is said to be', () => {
    expect(mayLendChart(aChart({ kind: 'file', hasHome: false, awayAt: 'Bag K-07' }), 1)).toEqual({
      ok: false,
      error: { kind: 'is-a-file' },
    })
  })
  it('lends nothing that is out, and nothing without a home', () => {
    expect(mayLendChart(aChart({ awayAt: 'Bag K-07' }), 1)).toMatchObject({
      error: { kind: 'is-out', placeLabel: 'Bag K-07' },
    })
    expect(mayLendChart(aChart({ hasHome: false }), 1)).toMatchObject({ error: { kind: 'no-home' } })
  })
  it('lends of three copies what is at home; only the last leaves none', () => {
    expect(mayLendChart(aChart({ copies: 3 }), 2)).toMatchObject({ value: { leavesNone: false } })
    expect(mayLendChart(aChart({ copies: 3, copiesOut: 2 }), 1)).toMatchObject({ value: { leavesNone: true } })
    expect(mayLendChart(aChart({ copies: 3, copiesOut: 2 }), 2)).toMatchObject({ error: { kind: 'not-so-many', atHome: 1 } })
  })
  it('wants a whole number of copies', () => {
    expect(() => mayLendChart(aChart(), 0)).toThrow(RangeError)
  })
})

describe('chart out', () => {
  const where = { homePlaceId: 'rack', currentPlaceId: 'ines' }
  it('is said when somebody has it, framers and model stitchers too', () => {
    for (const currentKind of ['person', 'framer', 'finisher', 'model stitcher'] as const)
      expect(isChartWithSomebody({ ...where, currentKind })).toBe(true)
  })
  it('is not said of one in a bag of one’s own, nor of one at home with a person', () => {
    expect(isChartWithSomebody({ ...where, currentKind: 'bag' })).toBe(false)
    expect(isChartWithSomebody({ homePlaceId: 'ines', currentPlaceId: 'ines', currentKind: 'person' })).toBe(false)
    expect(isChartWithSomebody({ ...where, currentPlaceId: null, currentKind: null })).toBe(false)
  })
})

describe('a clash', () => {
  const away = { fromOn: '2026-03-03', untilOn: '2026-04-28' }
  it('counts both days, to one day on the day it is due', () => {
    expect(clashOf(away, '2026-04-28')).toEqual({ fromOn: '2026-04-28', untilOn: '2026-04-28', days: 1 })
    expect(clashOf(away, '2026-04-29')).toBeNull()
  })
  it('begins with the loan when the plan is older: 3 Mar to 28 Apr is 57 days by the wall calendar', () => {
    expect(clashOf(away, '2026-01-01')).toEqual({ fromOn: '2026-03-03', untilOn: '2026-04-28', days: 57 })
  })
  it('has no last day when nobody knows one', () => {
    expect(clashOf({ fromOn: '2026-03-03', untilOn: null }, '2026-09-01')).toEqual({
      fromOn: '2026-09-01',
      untilOn: null,
      days: null,
    })
    expect(awayOf({ fromOn: '2026-03-03', dueOn: '2026-04-28' }, '2026-04-28')).toEqual(away)
    expect(awayOf({ fromOn: '2026-03-03', dueOn: '2026-04-28' }, '2026-04-29').untilOn).toBeNull()
  })
})
