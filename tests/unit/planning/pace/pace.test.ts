import { describe, expect, it } from 'vitest'
import { dayAfterStitching, dayBeforeStitching, startBy, weeksFor } from '#lib/planning/pace/finish-dates'
import { meansOf, paceWeeks, perHour, weekStart } from '#lib/planning/pace/pace'
import { planPace } from '#lib/planning/pace/project-pace'
import { weekdayOf } from '#lib/quantity/day'

const monday = 1
const on = (day: string, amount: number, minutes = 0) => ({ day, amount, minutes })

/** Geese over Tarnbeck: four weeks, the third of them away; scenario A7 of the trade notes. */
const lastFourWeeks = [
  ...[on('2026-08-11', 1_200), on('2026-08-15', 1_250)],
  on('2026-08-23', 2_120),
  ...[on('2026-08-31', 330), on('2026-09-06', 2_000)],
]
const away = [{ fromOn: '2026-08-24', toOn: '2026-08-30' }]
const today = '2026-09-07'
const due = { dueOn: '2026-12-01', finishingWeeks: 4, bufferWeeks: 1 }

describe('the weeks of a log', () => {
  it('begin on the day she says: 1 December 2026 is a Tuesday', () => {
    expect([weekdayOf('2026-12-01'), weekdayOf('2026-11-30'), weekdayOf('2026-11-29'), weekdayOf('1960-01-01')]).toEqual([
      2, 1, 7, 5,
    ])
    expect([weekStart('2026-12-01', 1), weekStart('2026-12-01', 7), weekStart('2026-12-01', 2)]).toEqual([
      '2026-11-30',
      '2026-11-29',
      '2026-12-01',
    ])
  })

  it('are whole ones, from the first that was logged to the last that is over', () => {
    const { weeks, isPartial } = paceWeeks({ work: [...lastFourWeeks, on(today, 999)], away, today, firstWeekday: monday })
    expect(weeks.map(({ startsOn, amount, isAway }) => [startsOn, amount, isAway])).toEqual([
      ['2026-08-10', 2_450, false],
      ['2026-08-17', 2_120, false],
      ['2026-08-24', 0, true],
      ['2026-08-31', 2_330, false],
    ])
    expect(isPartial).toBe(false)
  })

  it('are at most the last twelve, and idle ones up to today count', () => {
    const { weeks } = paceWeeks({ work: [on('2026-01-05', 7_000)], away: [], today, firstWeekday: monday })
    expect(weeks).toHaveLength(12)
    expect(meansOf(weeks)).toEqual({ stitchedWeeks: null, allWeeks: null })
  })

  it('are the one under way where there is no other', () => {
    const found = paceWeeks({ work: [on('2026-09-09', 400)], away: [], today: '2026-09-10', firstWeekday: monday })
    expect(found).toMatchObject({ isPartial: true, weeks: [{ startsOn: '2026-09-07', amount: 400 }] })
    expect(paceWeeks({ work: [], away: [], today, firstWeekday: monday }).weeks).toEqual([])
  })
})

describe('A7: two paces, and when to start', () => {
  it('means 2,300 over the weeks stitched and 1,725 over all', () => {
    const { weeks } = paceWeeks({ work: lastFourWeeks, away, today, firstWeekday: monday })
    const { stitchedWeeks, allWeeks } = meansOf(weeks)
    // 2,450 + 2,120 + 2,330 = 6,900, by three and by four.
    expect(stitchedWeeks).toEqual({ amount: 6_900, weeks: 3 })
    expect(allWeeks).toEqual({ amount: 6_900, weeks: 4 })
  })

  it('starts by Tue 22 Sep 2026 at the one, Tue 8 Sep 2026 at the other', () => {
    const plan = planPace({
      ...{ work: lastFourWeeks, left: 11_270, away, today, firstWeekday: monday, deadline: due, saidPerWeek: 2_000 },
    })
    // 11,270 ÷ 2,300 = 4.9, ÷ 1,725 = 6.53, ÷ 2,000 = 5.6; with 5 weeks of framing and buffer from Mon 7 Sep.
    expect(plan.outlooks.map(({ kind, weeks, stitchedOn, due: at }) => [kind, weeks, stitchedOn, at?.startBy])).toEqual([
      ['stitched-weeks', 5, '2026-10-12', '2026-09-22'],
      ['all-weeks', 7, '2026-10-26', '2026-09-08'],
      ['said', 6, '2026-10-19', '2026-09-15'],
    ])
    expect(plan.outlooks.map(({ due: at }) => [at?.readyOn, at?.daysLate])).toEqual([
      ['2026-11-16', -15],
      ['2026-11-30', -1],
      ['2026-11-23', -8],
    ])
  })

  it('starts a week earlier for a week away before it, and finishes a week later for one after today', () => {
    const autumn = [{ fromOn: '2026-10-05', toOn: '2026-10-11' }]
    expect(startBy(due, 5, autumn)).toEqual({ day: '2026-09-15', daysAway: 7 })
    expect(dayAfterStitching(today, 5, autumn)).toEqual({ day: '2026-10-19', daysAway: 7 })
    // Pushed into a second time away, which pushes it on.
    const twice = [...autumn, { fromOn: '2026-10-14', toOn: '2026-10-15' }]
    expect(dayAfterStitching(today, 5, twice)).toEqual({ day: '2026-10-21', daysAway: 9 })
    // The same days said twice are away once.
    expect(dayBeforeStitching('2026-10-27', 5, [...autumn, ...autumn])).toEqual({ day: '2026-09-15', daysAway: 7 })
  })

  it('needs no weeks for what is done, and has no date without a count or a pace', () => {
    expect(weeksFor(0, { amount: 6_900, weeks: 3 })).toBe(0)
    expect(weeksFor(2_300, { amount: 6_900, weeks: 3 })).toBe(1)
    expect(weeksFor(2_301, { amount: 6_900, weeks: 3 })).toBe(2)
    expect(() => weeksFor(1, { amount: 0, weeks: 3 })).toThrow(RangeError)
    const plain = { work: lastFourWeeks, away, today, firstWeekday: monday, deadline: null, saidPerWeek: null }
    expect(planPace({ ...plain, left: null }).outlooks).toEqual([])
    expect(planPace({ ...plain, work: [], left: 100 }).outlooks).toEqual([])
  })

  it('goes 100 stitches an hour for 250 in two and a half, whatever was logged without hours', () => {
    expect(perHour([on(today, 200, 120), on(today, 50, 30), on(today, 9_000), on(today, 0, 600)])).toBe(100)
    expect(perHour([on(today, 9_000)])).toBeNull()
  })
})
