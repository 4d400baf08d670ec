import { expect, it } from 'vitest'
import { stitchedBy } from '#lib/planning/pace/finish-dates'
import { meansOf, type Pace } from '#lib/planning/pace/pace'
import { levelSchedule } from '#lib/planning/pace/schedule'

// Source: the project's trade notes, scenario A7 "Start by", worked by hand. Geese over Tarnbeck, 11,270 stitches, due Tue 1 Dec 2026,
// framer 4 weeks, buffer 1. Log of last four weeks 2,450, 2,120, 0 (away), 2,330: stitched-week mean 6,900/3 = 2,300; all-week mean
// 1,725. At 2,300: 4.9 -> 5 weeks; 10 in all -> start by Tue 22 Sep 2026. At 1,725: 6.53 -> 7; 12 weeks -> Tue 8 Sep 2026.

const weeks = [2_450, 2_120, 0, 2_330].map((amount, at) => ({ startsOn: '', amount, minutes: 0, isAway: at === 2 }))
const means = meansOf(weeks)
const deadline = { dueOn: '2026-12-01', finishingWeeks: 4, bufferWeeks: 1 }
const geese = { id: 'geese', left: 11_270, fromOn: null, stitchedBy: stitchedBy(deadline) }

const planAt = (pace: Pace | null, today: string, more: (typeof geese)[] = []) =>
  levelSchedule({ jobs: [geese, ...more], pace: pace as Pace, away: [], today }).jobs

it('has the same last days to begin when the work is alone in the schedule', () => {
  expect(planAt(means.stitchedWeeks, '2026-08-04')[0]).toMatchObject({ latestStart: '2026-09-22' })
  expect(planAt(means.allWeeks, '2026-08-04')[0]).toMatchObject({ latestStart: '2026-09-08' })
})

it('is in time begun on the day, and a week late begun a week after', () => {
  expect(planAt(means.stitchedWeeks, '2026-09-22')[0]?.daysLate).toBe(0)
  expect(planAt(means.stitchedWeeks, '2026-09-29')[0]?.daysLate).toBe(7)
  expect(planAt(means.allWeeks, '2026-09-08')[0]?.daysLate).toBe(0)
})

it('goes earlier with a second work of 4,600 to be stitched by the same day, by its two weeks', () => {
  // By hand: 15,870 in all ÷ 2,300 = 6.9 -> 7 weeks before 27 Oct -> Tue 8 Sep, instead of 22 Sep.
  const other = { ...geese, id: 'other', left: 4_600 }
  expect(planAt(means.stitchedWeeks, '2026-08-04', [other]).map(({ latestStart }) => latestStart)).toEqual([
    '2026-09-08',
    '2026-10-13',
  ])
})
