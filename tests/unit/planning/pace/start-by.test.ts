import { expect, it } from 'vitest'
import { groupByStart, stitchesUntil } from '#lib/planning/pace/start-by'

it('counts whole weeks until a day, and what they come to', () => {
  // From Mon 30 November to Fri 1 January are 32 days: four weeks; 6,900 in three weeks are 2,300 a week.
  const asked = { pace: { amount: 6_900, weeks: 3 }, today: '2026-11-30', until: '2027-01-01', away: [] }
  expect(stitchesUntil(asked)).toEqual({ weeks: 4, stitches: 9_200 })
  // Away for ten days: 22 are left, three weeks.
  expect(stitchesUntil({ ...asked, away: [{ fromOn: '2026-12-20', toOn: '2026-12-29' }] })).toEqual({ weeks: 3, stitches: 6_900 })
  expect(stitchesUntil({ ...asked, until: '2026-12-06' })).toEqual({ weeks: 0, stitches: 0 })
})

it('lists what should be begun already first, then by month, then what has no day', () => {
  const works = [
    { id: 'a', startBy: ['2027-02-10', '2027-01-20'], isBegun: false },
    { id: 'b', startBy: [], isBegun: false },
    { id: 'c', startBy: ['2026-12-05', '2026-11-29'], isBegun: false },
    { id: 'd', startBy: ['2027-01-02'], isBegun: true },
  ]
  expect(groupByStart(works, '2026-11-30').map(({ group, works: of }) => [group, of.map(({ id }) => id)])).toEqual([
    [{ kind: 'overdue' }, ['c']],
    [{ kind: 'month', month: '2027-01' }, ['d', 'a']],
    [{ kind: 'no-day' }, ['b']],
  ])
})
