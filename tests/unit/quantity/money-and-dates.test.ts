import { describe, expect, it } from 'vitest'
import { formatDate, parseDate } from '#lib/quantity/date'
import { formatPrice, parsePrice } from '#lib/quantity/money'

describe('prices', () => {
  it.each([
    ['3.60', 360, null],
    ['3', 300, null],
    ['£3.60', 360, 'GBP'],
    ['3,60 €', 360, 'EUR'],
    ['EUR 1.240,00', 124_000, 'EUR'],
    ['$1,240', 124_000, 'USD'],
    ['1.240 €', 124_000, 'EUR'],
    ['12.5', 1_250, null],
    ['¥500', 500, 'JPY'],
    ['0', 0, null],
  ])('reads %j', (text, minor, currency) => expect(parsePrice(text)).toEqual({ minor, currency }))

  it.each(['', 'free', '-1', '1.2345', '£3.60 €', '£', '3.60 pounds', '¥1.5'])('refuses %j', (text) =>
    expect(parsePrice(text)).toBeNull(),
  )

  it.each([
    [970_300, 'GBP', '£9,703.00'],
    [360, null, '3.60'],
    [5, 'EUR', '€0.05'],
    [1_250, 'CHF', 'CHF 12.50'],
    [1_234_567, 'JPY', '¥1,234,567'],
    [-100, 'USD', '-$1.00'],
  ])('shows %d of %s as %s', (minor, currency, shown) => expect(formatPrice(minor, currency)).toBe(shown))
})

describe('parseDate', () => {
  const dayFirst = { monthFirst: false }
  it.each([
    ['2026-03-01', '2026-03-01', false],
    ['2026-03-01 00:00:00', '2026-03-01', false],
    ['2026/3/1', '2026-03-01', false],
    ['1.3.2026', '2026-03-01', false],
    ['1/3/2026', '2026-03-01', true],
    ['3/3/2026', '2026-03-03', false],
    ['21/3/2026', '2026-03-21', false],
    ['3/21/2026', '2026-03-21', false],
    ['01-03-2026', '2026-03-01', true],
    ['1 Mar 2026', '2026-03-01', false],
    ['1st March 2026', '2026-03-01', false],
    ['Mar 1, 2026', '2026-03-01', false],
    ['1-Sept-2026', '2026-09-01', false],
    ['Tue 8 Sep 2026', '2026-09-08', false],
    ['29 Feb 2028', '2028-02-29', false],
    ['21/3/26', '2026-03-21', true],
    ['21/3/98', '1998-03-21', true],
  ])('reads %j', (text, iso, isAmbiguous) => expect(parseDate(text, dayFirst)).toEqual({ iso, isAmbiguous }))

  it('puts the month first when told to, where both orders make a date', () => {
    expect(parseDate('1/3/2026', { monthFirst: true })).toEqual({ iso: '2026-01-03', isAmbiguous: true })
    expect(parseDate('21/3/2026', { monthFirst: true })).toEqual({ iso: '2026-03-21', isAmbiguous: false })
    expect(parseDate('1.3.2026', { monthFirst: true })?.iso).toBe('2026-03-01')
  })

  it.each([
    '',
    '46082',
    '2026',
    'March 2026',
    '29 Feb 2027',
    '31/4/2026',
    '2026-13-01',
    '1 Mars 2026x',
    '0/0/2026',
    '2026-03-01T10:30',
    '1/3.2026',
    'soon',
  ])('refuses %j', (text) => expect(parseDate(text, dayFirst)).toBeNull())
})

describe('formatDate', () => {
  // Weekdays as the trade's worked scenarios state them.
  it.each([
    ['2026-12-01', 'Tue 1 Dec 2026'],
    ['2026-09-22', 'Tue 22 Sep 2026'],
    ['2026-09-08', 'Tue 8 Sep 2026'],
    ['2026-03-03', 'Tue 3 Mar 2026'],
    ['2026-04-28', 'Tue 28 Apr 2026'],
  ])('shows %s as %s', (iso, shown) => expect(formatDate(iso)).toBe(shown))

  it('throws on what is not a day', () => expect(() => formatDate('2026-02-30')).toThrow(RangeError))
})
