import { expect, it } from 'vitest'
import { type CalendarEvent, eventsByDay, monthAfter, monthWeeks } from '#lib/planning/days/calendar'

it('lays a month out in whole weeks', () => {
  // 1 December 2026 is a Tuesday and 31 a Thursday: from Monday 30 November to Sunday 3 January.
  const weeks = monthWeeks('2026-12', 1)
  expect(weeks).toHaveLength(5)
  expect(weeks[0]?.map(({ day, isOfMonth }) => `${day.slice(5)}${isOfMonth ? '' : ' other'}`).slice(0, 2)).toEqual([
    '11-30 other',
    '12-01',
  ])
  expect(weeks.at(-1)?.at(-1)).toEqual({ day: '2027-01-03', isOfMonth: false })
  // Weeks that begin on Sunday; and February 2027, which takes four whole weeks from Monday the first.
  expect(monthWeeks('2026-12', 7)[0]?.[0]?.day).toBe('2026-11-29')
  expect(monthWeeks('2027-02', 1)).toHaveLength(4)
})

it('goes from month to month over the year', () => {
  expect(monthAfter('2026-12', 1)).toBe('2027-01')
  expect(monthAfter('2026-01', -1)).toBe('2025-12')
  expect(monthAfter('2026-11', 14)).toBe('2028-01')
})

it('puts a span on each of its days, and what is to be done first', () => {
  const of = (kind: 'occasion' | 'away', on: string, toOn = on): CalendarEvent =>
    kind === 'occasion'
      ? { uid: `${kind}-${on}`, sequence: 0, on, toOn, kind, name: 'Christmas', isOwn: false }
      : { uid: `${kind}-${on}`, sequence: 0, on, toOn, kind, what: null, ownerName: 'Hanne' }
  const due: CalendarEvent = {
    ...{ uid: 'due-1', sequence: 0, on: '2026-12-25', toOn: '2026-12-25', kind: 'due', occasion: null },
    project: { id: '1', title: 'Winter Post' },
  }
  const days = eventsByDay([of('away', '2026-12-24', '2027-01-02'), of('occasion', '2026-12-25'), due], {
    fromOn: '2026-12-25',
    toOn: '2026-12-31',
  })
  expect([...days.keys()]).toHaveLength(7)
  expect(days.get('2026-12-25')?.map(({ kind }) => kind)).toEqual(['due', 'occasion', 'away'])
})
