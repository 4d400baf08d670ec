import { describe, expect, it } from 'vitest'
import { formatCount, isSquareCount, meanPerInch, parseCount, perInch, pitchUm, sameCount } from '#lib/quantity/count'

const inInches = (text: string) => {
  const count = parseCount(text)
  return count && [perInch(count.ends), perInch(count.picks), count.over]
}

describe('parseCount', () => {
  it.each([
    ['28', 28, 28, null],
    ['28 ct', 28, 28, null],
    ['28ct over 2', 28, 28, 2],
    ['28 over two', 28, 28, 2],
    ['28 (over two threads)', 28, 28, 2],
    ['28-count, over 1', 28, 28, 1],
    ['28 über 2', 28, 28, 2],
    ['28 ct über zwei Fäden', 28, 28, 2],
    ['28 Fäden je Zoll über einen Faden', 28, 28, 1],
    ['25,4 ct', 25.4, 25.4, null],
    ['110 je 10 cm', 27.94, 27.94, null],
    ['11 Fäden/cm', 27.94, 27.94, null],
    ['14 count', 14, 14, null],
    ['14 Ct.', 14, 14, null],
    ['14 per inch', 14, 14, null],
    ['12½', 12.5, 12.5, null],
    ['30.5 ct', 30.5, 30.5, null],
    ['34 x 31', 34, 31, null],
    ['34×31 over 2', 34, 31, 2],
    ['11/cm', 27.94, 27.94, null],
    ['110/10cm', 27.94, 27.94, null],
    ['110 per 10 cm', 27.94, 27.94, null],
    ['134 x 122 / 10 cm', 34.036, 30.988, null],
  ])('reads %j', (text, ends, picks, over) => {
    const [readEnds, readPicks, readOver] = inInches(text) as [number, number, number | null]
    expect(readEnds).toBeCloseTo(ends, 9)
    expect(readPicks).toBeCloseTo(picks, 9)
    expect(readOver).toBe(over)
  })

  it('keeps a count in whole numbers of threads and micrometres', () => {
    expect(parseCount('28')?.ends).toEqual({ threads: 28, perUm: 25_400 })
    expect(parseCount('30.5')?.ends).toEqual({ threads: 61, perUm: 50_800 })
    expect(parseCount('110/10cm')?.ends).toEqual({ threads: 110, perUm: 100_000 })
  })

  it.each(['', 'fine', '0', '-28', '28 over 3', '28 over', '2026', '28 x', '28 x 31 x 4', '110 per 7 cm', '⅓', '28 ct linen ct'])(
    'refuses %j',
    (text) => expect(parseCount(text)).toBeNull(),
  )
})

describe('counts', () => {
  const inch28 = { threads: 28, perUm: 25_400 }

  it('are the same however they were counted', () => {
    expect(sameCount(inch28, { threads: 56, perUm: 50_800 })).toBe(true)
    expect(sameCount(inch28, { threads: 110, perUm: 100_000 })).toBe(false)
    expect(isSquareCount(inch28, { threads: 27, perUm: 25_400 })).toBe(false)
  })

  it('give pitch and mean', () => {
    expect(pitchUm(inch28, 2)).toBeCloseTo(1_814.2857, 4)
    expect(meanPerInch({ threads: 34, perUm: 25_400 }, { threads: 31, perUm: 25_400 })).toBe(32.5)
  })

  it.each([
    ['28', '28 count'],
    ['34 x 31', '34 × 31 count'],
    ['30.5', '30.5 count'],
    ['110/10cm', '110 per 10 cm'],
    ['11/cm', '110 per 10 cm'],
    ['134 x 122 / 10 cm', '134 × 122 per 10 cm'],
  ])('%j is shown as %s, and reads back the same', (text, shown) => {
    const count = parseCount(text)
    if (!count) throw new Error(text)
    expect(formatCount(count.ends, count.picks)).toBe(shown)
    expect(inInches(shown)).toEqual(inInches(text))
  })
})
