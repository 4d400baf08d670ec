import { describe, expect, it } from 'vitest'
import { findNextTurn, hasWeekday, type RotationRule, weekdaysOf } from '#lib/planning/pace/rotation'
import { findUntouched } from '#lib/planning/pace/untouched'

const rule = (by: RotationRule['by']): RotationRule => ({ by, days: 3, hours: 10, stitches: 500 })
const turns = ['geese', 'larch', 'map'].map((projectId) => ({ projectId, weekdays: 0 }))
const did = (projectId: string, day: string, stitches = 0, minutes = 0) => ({ projectId, day, stitches, minutes })
const today = '2026-11-30'

describe('what is next in the rotation', () => {
  it('is the first where nothing was logged yet, and nothing where nothing takes part', () => {
    expect(findNextTurn({ rule: rule('days'), turns, work: [], today })).toEqual({
      kind: 'turn',
      projectId: 'geese',
      after: null,
    })
    expect(findNextTurn({ rule: rule('days'), turns: [], work: [], today })).toEqual({ kind: 'empty' })
  })

  it('stays with the one last worked on until it had its days, two sittings of a day being one', () => {
    const work = [did('map', '2026-11-20'), did('geese', '2026-11-27'), did('geese', '2026-11-27'), did('geese', '2026-11-29')]
    expect(findNextTurn({ rule: rule('days'), turns, work, today })).toEqual({
      kind: 'stays',
      projectId: 'geese',
      done: 2,
      of: 3,
    })
    expect(findNextTurn({ rule: rule('days'), turns, work: [...work, did('geese', today)], today })).toEqual({
      ...{ kind: 'turn', projectId: 'larch', after: { projectId: 'geese', done: 3, of: 3 } },
    })
  })

  it('goes by hours or by stitches, and after the last begins again', () => {
    const work = [
      did('larch', '2026-11-20', 9_000, 9_000),
      did('map', '2026-11-27', 300, 330),
      did('map', '2026-11-29', 200, 240),
    ]
    // 330 + 240 minutes are 9.5 hours of 10; 500 stitches are all of 500.
    expect(findNextTurn({ rule: rule('hours'), turns, work, today })).toEqual({
      kind: 'stays',
      projectId: 'map',
      done: 9.5,
      of: 10,
    })
    expect(findNextTurn({ rule: rule('stitches'), turns, work, today })).toMatchObject({ kind: 'turn', projectId: 'geese' })
  })

  it('is not disturbed by what is worked on beside it', () => {
    const work = [did('geese', '2026-11-26'), did('a gift', '2026-11-27'), did('geese', '2026-11-28')]
    expect(findNextTurn({ rule: rule('days'), turns, work, today })).toMatchObject({ kind: 'stays', projectId: 'geese', done: 2 })
  })

  it('goes by days of the week: 30 November 2026 is a Monday', () => {
    const [mondays, weekend] = [weekdaysOf([1]), weekdaysOf([6, 7])]
    expect([mondays, weekend, hasWeekday(weekend, 7), hasWeekday(weekend, 5)]).toEqual([1, 96, true, false])
    const byDay = [
      { projectId: 'geese', weekdays: weekend },
      { projectId: 'larch', weekdays: mondays },
    ]
    const ask = (day: string) => findNextTurn({ rule: rule('weekday'), turns: byDay, work: [], today: day })
    expect(ask(today)).toEqual({ kind: 'today', projectIds: ['larch'] })
    expect(ask('2026-12-01')).toEqual({ kind: 'free-day', nextOn: '2026-12-05', projectIds: ['geese'] })
    expect(findNextTurn({ rule: rule('weekday'), turns, work: [], today })).toEqual({ kind: 'no-days' })
  })
})

describe('what was not touched for long', () => {
  it('is what was begun and not worked on for more days than she says, the longest first', () => {
    const works = [
      { id: 'geese', startedOn: '2026-05-02', lastWorkedOn: '2026-11-29' },
      { id: 'larch', startedOn: '2026-09-01', lastWorkedOn: null },
      { id: 'map', startedOn: '2023-02-18', lastWorkedOn: '2025-03-30' },
      { id: 'wish', startedOn: null, lastWorkedOn: null },
      { id: 'begun again', startedOn: '2026-08-31', lastWorkedOn: '2026-01-01' },
    ]
    // From 1 September to 30 November are 90 days: 29 + 31 + 30; from 31 August one more.
    const found = findUntouched(works, { today, limitDays: 90 })
    expect(found.map(({ work, since, days }) => [work.id, since, days])).toEqual([
      ['map', '2025-03-30', 610],
      ['begun again', '2026-08-31', 91],
    ])
    expect(findUntouched(works, { today, limitDays: 89 }).map(({ work }) => work.id)).toContain('larch')
  })
})
