import { describe, expect, it } from 'vitest'
import { dayOfRule, daysBetweenOf, nextDay, parseRule, printRule } from '#lib/planning/days/occasion-rule'
import { feastDay, listOccasions, nextOccasion, nextOfTheme, occasionDays, occasionOfTheme } from '#lib/planning/days/occasions'

const on = (text: string, year: number) => {
  const rule = parseRule(text)
  return rule && dayOfRule(rule, year)
}

describe('a rule', () => {
  // Read off a printed calendar of 2026: 1 May is a Friday, 31 May a Sunday, 30 November a Monday, 23 June a Tuesday.
  it.each([
    ['12-24', 2026, '2026-12-24'],
    ['easter', 2026, '2026-04-05'],
    ['easter+39', 2026, '2026-05-14'],
    ['easter-47', 2026, '2026-02-17'],
    ['first sunday of 5', 2026, '2026-05-03'],
    ['second sunday of 5', 2026, '2026-05-10'],
    ['last monday of 5', 2026, '2026-05-25'],
    ['last sunday of 5', 2026, '2026-05-31'],
    ['fifth friday of 5', 2026, '2026-05-29'],
    ['fifth monday of 5', 2026, null],
    ['sunday nearest 11-30', 2026, '2026-11-29'],
    ['sunday nearest 11-30 - 7', 2026, '2026-11-22'],
    ['saturday nearest 06-23', 2026, '2026-06-20'],
    ['02-29', 2027, null],
    ['02-29', 2028, '2028-02-29'],
    ['2027-05-14', 2027, '2027-05-14'],
    ['2027-05-14', 2028, null],
  ])('%s of %i falls on %s', (text, year, day) => {
    expect(on(text, year)).toBe(day)
  })

  it.each(['12-24', 'easter', 'easter+39', 'easter-2', 'last monday of 5', 'sunday nearest 11-30-7', '2027-05-14'])(
    '%s is printed as it is read',
    (text) => {
      const rule = parseRule(text)
      expect(rule && printRule(rule)).toBe(text)
    },
  )

  it.each([
    '',
    '13-01',
    '02-30',
    '00-10',
    'easter+301',
    'sixth sunday of 5',
    'first sunday of 13',
    'noonday nearest 11-30',
    '2027-02-30',
  ])('“%s” is none', (text) => expect(parseRule(text)).toBeNull())
})

describe('the next day', () => {
  const next = (text: string, from: string) => {
    const rule = parseRule(text)
    return rule && nextDay((year) => dayOfRule(rule, year), from)
  }

  it('is today where it falls today, and next year’s the day after', () => {
    expect(next('12-25', '2026-12-25')).toBe('2026-12-25')
    expect(next('12-25', '2026-12-26')).toBe('2027-12-25')
  })

  it('passes over years that have none, a century’s missing leap day too', () => {
    expect(next('02-29', '2097-01-01')).toBe('2104-02-29')
  })

  it('comes no more after the one time', () => expect(next('2027-05-14', '2027-05-15')).toBeNull())

  it('is found where its rule leaves its year', () => {
    // 31 December 2027 is a Friday, so the Sunday nearest it is of 2028; 1 January 2027 too, and 30 days before its Sunday is December.
    expect(next('sunday nearest 12-31', '2028-01-01')).toBe('2028-01-02')
    expect(next('sunday nearest 01-01 - 30', '2026-11-01')).toBe('2026-12-04')
  })

  it('lists all between two days, both counted', () => {
    expect(daysBetweenOf((year) => `${year}-06-24`, '2026-06-24', '2028-06-24')).toEqual([
      '2026-06-24',
      '2027-06-24',
      '2028-06-24',
    ])
  })
})

describe('occasions', () => {
  const own = [{ id: 'own-1', name: 'Guild fair', rule: 'last saturday of 9' }]
  const world = { country: 'GB', own } as const

  it('offers her own first, then what the country keeps', () => {
    const keys = listOccasions(world).map(({ key }) => key)
    expect(keys[0]).toBe('own-1')
    expect(keys).toContain('harvest')
    expect(keys).not.toContain('thanksgiving')
    expect(listOccasions({ country: 'US', own: [] }).map(({ key }) => key)).toContain('thanksgiving')
  })

  it('finds Easter of 2027 from the day after that of 2026', () => {
    expect(nextOccasion('easter', '2026-04-06', world)).toEqual({ key: 'easter', name: 'Easter', on: '2027-03-28' })
  })

  it('knows her own, and says nothing of one that is gone', () => {
    expect(nextOccasion('own-1', '2026-01-01', world)).toMatchObject({ on: '2026-09-26' })
    expect(nextOccasion('own-2', '2026-01-01', world)).toBeNull()
    expect(nextOccasion('thanksgiving', '2026-01-01', world)).toBeNull()
  })

  it('moves French Mother’s Day off Whit Sunday', () => {
    // 31 May 2020 and 28 May 2023 were Whit Sundays.
    expect(feastDay('mothers-day', 'FR', 2020)).toBe('2020-06-07')
    expect(feastDay('mothers-day', 'FR', 2023)).toBe('2023-06-04')
    expect(feastDay('mothers-day', 'FR', 2026)).toBe('2026-05-31')
  })

  it('turns the seasons round in the south', () => {
    expect(feastDay('winter', 'GB', 2026)).toBe('2026-12-01')
    expect(feastDay('winter', 'NZ', 2026)).toBe('2026-06-01')
  })

  it.each([
    ['Christmas', 'christmas'],
    ['Yule', 'christmas'],
    ['Christmas Eve', 'christmas-eve'],
    ['winter', 'winter'],
    ['Late autumn', 'autumn'],
    ['Mother’s Day', 'mothers-day'],
    ['guild  FAIR', 'own-1'],
    ['Thanksgiving', null],
    ['any', null],
  ])('takes the theme %s for %s', (theme, key) => expect(occasionOfTheme(theme, world)).toBe(key))

  it('says the next day of a theme', () => {
    expect(nextOfTheme('Halloween', '2026-11-01', world)).toMatchObject({ on: '2027-10-31' })
    expect(nextOfTheme('birds', '2026-11-01', world)).toBeNull()
  })

  it('lists the days of a month in their order', () => {
    const days = occasionDays(listOccasions(world), { fromOn: '2026-12-01', toOn: '2026-12-31' }, world)
    expect(days.map(({ key, on }) => `${on.slice(8)} ${key}`)).toEqual([
      '01 winter',
      '06 st-nicholas',
      '13 st-lucy',
      '24 christmas-eve',
      '25 christmas',
      '31 new-years-eve',
    ])
  })
})
