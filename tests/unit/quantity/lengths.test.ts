import { describe, expect, it } from 'vitest'
import { formatClothLength, formatClothSize, parseClothLength, parseClothSize, roundUpUm } from '#lib/quantity/cloth-length'
import { formatThreadLength, metresToTenths, parseThreadLength } from '#lib/quantity/thread-length'

describe('thread lengths', () => {
  it.each([
    ['8 m', 80_000],
    ['8m', 80_000],
    ['8 M', 80_000],
    ['8', 80_000],
    ['2,5 m', 25_000],
    ['8 yd', 73_152],
    ['5 yards', 45_720],
    ['5 yds.', 45_720],
    ['8.7 yd', 79_553],
    ['250cm', 25_000],
    ['18"', 4_572],
    ['18 in.', 4_572],
    ['12 mm', 120],
    ['1 ft', 3_048],
    ['½ m', 5_000],
    ['0', 0],
  ])('reads %j as %d tenths of a millimetre', (text, tenths) => expect(parseThreadLength(text, 'm')).toBe(tenths))

  it('reads a bare number in the unit it is told', () => expect(parseThreadLength('8', 'yd')).toBe(73_152))

  it.each(['', 'm', 'some', '8 furlongs', '-1 m', '8 m 6', 'NaN m'])('refuses %j', (text) =>
    expect(parseThreadLength(text, 'm')).toBeNull(),
  )

  it('turns metres into tenths', () => expect(metresToTenths(7.3152)).toBe(73_152))

  it.each([
    [131_607, 'm', '13.16 m'],
    [80_000, 'm', '8 m'],
    [73_152, 'yd', '8 yd'],
    [0, 'm', '0 m'],
    [30, 'm', '0.003 m'],
  ] as const)('shows %d tenths in %s as %s', (tenths, unit, shown) => expect(formatThreadLength(tenths, unit)).toBe(shown))
})

describe('cloth lengths', () => {
  it.each([
    ['16', 406_400],
    ['16 in', 406_400],
    ['16"', 406_400],
    ['16”', 406_400],
    ['16 inches', 406_400],
    ['1 1/2"', 38_100],
    ['12½', 317_500],
    ['40,6 cm', 406_000],
    ['406 mm', 406_000],
    ['1 yd', 914_400],
    ['½ yard', 457_200],
    ['0.5 m', 500_000],
    ["1'", 304_800],
  ])('reads %j as %d micrometres', (text, um) => expect(parseClothLength(text, 'in')).toBe(um))

  it('reads a bare number in the unit it is told', () => expect(parseClothLength('45', 'cm')).toBe(450_000))

  it.each(['', 'wide', '16 stone', '-2 in', '16 x 13'])('refuses %j', (text) => expect(parseClothLength(text, 'in')).toBeNull())

  it.each([
    ['18 x 27 in', 457_200, 685_800],
    ['18"x27"', 457_200, 685_800],
    ['18in x 27', 457_200, 685_800],
    ['18 by 27', 457_200, 685_800],
    ['45 × 70 cm', 450_000, 700_000],
    ['12½ X 18 in', 317_500, 457_200],
    ['1 m x 50 cm', 1_000_000, 500_000],
  ])('reads the size %j', (text, widthUm, heightUm) => expect(parseClothSize(text, 'in')).toEqual({ widthUm, heightUm }))

  it.each(['', '18', '18 x', '18 x 27 x 3', '0 x 5', '18 x wide'])('refuses the size %j', (text) =>
    expect(parseClothSize(text, 'in')).toBeNull(),
  )

  it.each([
    [317_500, 'in', '12½ in'],
    [12_700, 'in', '½ in'],
    [406_400, 'in', '16 in'],
    [0, 'in', '0 in'],
    [73_025, 'in', '2.875 in'],
    [295_834, 'in', '11.647 in'],
    [330_200, 'cm', '33.02 cm'],
    [450_000, 'cm', '45 cm'],
  ] as const)('shows %d in %s as %s', (um, unit, shown) => expect(formatClothLength(um, unit)).toBe(shown))

  it('shows a size with its unit once', () => {
    expect(formatClothSize({ widthUm: 406_400, heightUm: 336_550 }, 'in')).toBe('16 × 13¼ in')
  })

  it('rounds up to the step, and takes a hair over a step for the step', () => {
    expect(roundUpUm(254_001, 12_700)).toBe(266_700)
    expect(roundUpUm(254_000, 12_700)).toBe(254_000)
    expect(roundUpUm(254_000.000_000_03, 12_700)).toBe(254_000)
    expect(roundUpUm(403_225, 10_000)).toBe(410_000)
    expect(() => roundUpUm(1, 0)).toThrow(RangeError)
  })
})
