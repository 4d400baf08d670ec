import { describe, expect, it } from 'vitest'
import { type BackupStanding, mondayOf, planRotation, usualKeeping } from '#lib/backup/rotation'

const good = (day: string, over: Partial<BackupStanding> = {}): BackupStanding => ({
  ...{
    name: `${day}${over.name ?? ''}`,
    day,
    madeMs: Date.parse(`${day}T02:30:00Z`),
    check: 'good',
    kind: 'scheduled',
    isBroughtIn: false,
  },
  ...over,
  ...(over.name !== undefined && { name: `${day}${over.name}` }),
})

const days = (from: string, count: number): string[] =>
  Array.from({ length: count }, (_, at) => new Date(Date.parse(from) + at * 86_400_000).toISOString().slice(0, 10))

const kept = (backups: readonly BackupStanding[], keeping = usualKeeping): string[] => {
  const gone = new Set(planRotation(backups, keeping))
  return backups.map(({ name }) => name).filter((name) => !gone.has(name))
}

describe('the rotation of backups', () => {
  it('keeps seven days, five weeks and twelve months of a year of nights', () => {
    // Read off a wall calendar: 30 November 2026 is a Monday. The last of each week before is its Sunday.
    const nights = days('2025-11-01', 395).map((day) => good(day))
    expect(nights.at(-1)?.name).toBe('2026-11-30')
    expect(kept(nights)).toEqual([
      ...['2025-12-31', '2026-01-31', '2026-02-28', '2026-03-31', '2026-04-30', '2026-05-31'],
      ...['2026-06-30', '2026-07-31', '2026-08-31', '2026-09-30', '2026-10-31'],
      // The weeks that end on 8, 15, 22 and 29 November; the fifth is the one that began today.
      ...['2026-11-08', '2026-11-15', '2026-11-22'],
      ...['2026-11-24', '2026-11-25', '2026-11-26', '2026-11-27', '2026-11-28', '2026-11-29', '2026-11-30'],
    ])
  })

  it('keeps the last of a day', () => {
    const two = [good('2026-11-29'), good('2026-11-30', { name: ' early' }), good('2026-11-30', { name: ' late', madeMs: 9e12 })]
    expect(kept(two)).toEqual(['2026-11-29', '2026-11-30 late'])
  })

  it('lets days without a backup take no turn', () => {
    const seldom = ['2024-02-29', '2025-05-01', '2026-01-15', '2026-11-30'].map((day) => good(day))
    expect(kept(seldom, { days: 4, weeks: 1, months: 1 })).toEqual(seldom.map(({ name }) => name))
    expect(kept(seldom, { days: 2, weeks: 1, months: 1 })).toEqual(['2026-01-15', '2026-11-30'])
  })

  it('never takes away the only good one, whatever came after it', () => {
    const old = good('2026-01-01')
    const bad = days('2026-11-01', 30).map((day) => good(day, { check: 'bad' }))
    expect(planRotation([old, ...bad], { days: 1, weeks: 1, months: 1 })).toEqual([])
    expect(planRotation([good('2026-11-01', { check: 'bad' })], usualKeeping)).toEqual([])
    expect(planRotation([], usualKeeping)).toEqual([])
  })

  it('gives a bad or unchecked one no turn, and takes it away once it is older than the days kept', () => {
    const backups = [
      good('2026-11-25', { check: 'bad' }),
      good('2026-11-26'),
      good('2026-11-28', { check: 'unchecked' }),
      good('2026-11-29'),
      good('2026-11-30', { check: 'bad' }),
    ]
    // Two days with a good one: the 26th and the 29th; the bad one of the 25th lies before them.
    expect(kept(backups, { days: 2, weeks: 1, months: 1 })).toEqual(['2026-11-26', '2026-11-28', '2026-11-29', '2026-11-30'])
  })

  it('keeps what was set aside before a restore for a month, and what was brought in for good', () => {
    const aside = good('2026-10-20', { kind: 'before-restore' })
    const brought = good('2019-01-01', { isBroughtIn: true })
    const night = (day: string) => [aside, brought, good(day)]
    // From 20 October to 20 November are 31 days.
    expect(kept(night('2026-11-20'))).toContain(aside.name)
    expect(kept(night('2026-11-21'))).toEqual([brought.name, '2026-11-21'])
  })

  it('begins weeks on Monday, over the turn of a year too', () => {
    // A wall calendar: 1 January 2027 is a Friday.
    expect(mondayOf('2027-01-01')).toBe('2026-12-28')
    expect(mondayOf('2026-12-28')).toBe('2026-12-28')
    expect(mondayOf('2027-01-03')).toBe('2026-12-28')
    expect(mondayOf('2027-01-04')).toBe('2027-01-04')
    expect(() => mondayOf('2027-13-01')).toThrow(RangeError)
  })
})
