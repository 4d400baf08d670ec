import { describe, expect, it } from 'vitest'
import { fullOfLength, lengthByWeight, parsePart } from '#lib/stock/part-length'

/** 8 m of six strands. */
const skein = 480_000
const metre = 60_000
const full = { unit: 'm' as const, strands: 6, putUpStrandTenths: skein, putUpMilligrams: 6_200 }
const most = 100 * metre

describe('the length of a part by its weight', () => {
  it('is its share of a full one, rounded down', () => {
    expect(lengthByWeight({ milligrams: 3_100, putUpMilligrams: 6_200, putUpStrandTenths: skein })).toBe(240_000)
    // 3,000 ÷ 6,200 × 480,000 = 232,258.06…
    expect(lengthByWeight({ milligrams: 3_000, putUpMilligrams: 6_200, putUpStrandTenths: skein })).toBe(232_258)
    expect(lengthByWeight({ milligrams: 0, putUpMilligrams: 6_200, putUpStrandTenths: skein })).toBe(0)
  })

  it('is exact where the product is past what a double holds', () => {
    // A cone of 1 kg and 10 km, 999,999 mg of it left: all but a millionth.
    expect(lengthByWeight({ milligrams: 999_999, putUpMilligrams: 1_000_000, putUpStrandTenths: 90_000_000_001 })).toBe(
      89_999_910_000,
    )
  })

  it('refuses what is no weight', () => {
    for (const wrong of [{ milligrams: -1 }, { putUpMilligrams: 0 }, { putUpStrandTenths: 0 }, { milligrams: 1.5 }])
      expect(() => lengthByWeight({ milligrams: 1, putUpMilligrams: 1, putUpStrandTenths: 1, ...wrong })).toThrow(RangeError)
  })
})

describe('a part as one says it', () => {
  const read = (text: string, by = full) => {
    const part = parsePart(text, by, most)
    return part.ok ? [part.value.partStrandTenths, part.value.partCertainty] : part.error.kind
  }

  it('is measured by length, in whatever unit', () => {
    expect(read('2.5 m')).toEqual([2.5 * metre, 'measured'])
    expect(read('60 cm')).toEqual([36_000, 'measured'])
    expect(read('1 1/2')).toEqual([1.5 * metre, 'measured'])
    expect(read('5 yd')).toEqual([274_320, 'measured'])
  })

  it('is a guess as a fraction of a full one, rounded down', () => {
    expect(read('1/4')).toEqual([120_000, 'guess'])
    expect(read('½')).toEqual([240_000, 'guess'])
    expect(read('three quarters')).toEqual([360_000, 'guess'])
    expect(read('dreiviertel')).toEqual([360_000, 'guess'])
    expect(read('1/7')).toEqual([68_571, 'guess'])
    expect(read('⅔')).toEqual([320_000, 'guess'])
    for (const text of ['1/1', '5/4', '0/4', '1/0']) expect(read(text)).toBe('not-a-fraction')
  })

  it('is measured by weight, where a full one’s is known', () => {
    expect(read('3.1 g')).toEqual([240_000, 'measured'])
    expect(read('3100mg')).toEqual([240_000, 'measured'])
    // 0.1 oz is 2,834 whole milligrams: 2,834 ÷ 6,200 × 480,000 = 219,406.4…
    expect(read('0.1 oz')).toEqual([219_406, 'measured'])
    expect(read('3.1 g', { ...full, putUpMilligrams: null as never })).toBe('no-full-weight')
  })

  it('is nothing, or some', () => {
    expect(read(' ')).toEqual([0, 'none'])
    expect(read('Some')).toEqual([0, 'some'])
    expect(read('etwas')).toEqual([0, 'some'])
  })

  it('is refused where it is neither', () => {
    for (const text of ['a bit', '-2 m', 'g', '0 m', '3 stone']) expect(read(text)).toBe('not-a-part')
    expect(read('101 m')).toBe('too-long')
  })
})

it('a put-up of another length weighs in proportion', () => {
  expect(fullOfLength(full, 274_320)).toEqual({ strands: 6, putUpStrandTenths: 274_320, putUpMilligrams: 3_543 })
  expect(fullOfLength({ ...full, putUpMilligrams: null }, 1).putUpMilligrams).toBeNull()
})
