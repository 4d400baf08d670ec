import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { formatClothLength, formatClothSize, parseClothLength, parseClothSize } from '#lib/quantity/cloth-length'
import { formatCount, parseCount } from '#lib/quantity/count'
import { formatDate, parseDate } from '#lib/quantity/date'
import { formatPrice, parsePrice } from '#lib/quantity/money'
import { parseNumber, parseWholeNumber } from '#lib/quantity/number'
import { formatThreadLength, parseThreadLength } from '#lib/quantity/thread-length'

const settings = { seed: 20260907, numRuns: 200 }

describe('what is shown reads back', () => {
  it('cloth to the thousandth of an inch or the tenth of a millimetre', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 9_000_000 }), fc.constantFrom('in' as const, 'cm' as const), (um, unit) => {
        const back = parseClothLength(formatClothLength(um, unit), unit === 'in' ? 'cm' : 'in')
        expect(Math.abs((back as number) - um)).toBeLessThanOrEqual(unit === 'in' ? 13 : 50)
        expect(parseClothSize(formatClothSize({ widthUm: 254_000, heightUm: 12_700 }, unit), unit)).toEqual({
          widthUm: 254_000,
          heightUm: 12_700,
        })
      }),
      settings,
    )
  })

  it('thread to half a hundredth of its unit', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 5_000_000 }), fc.constantFrom('m' as const, 'yd' as const), (tenths, unit) => {
        expect(Math.abs((parseThreadLength(formatThreadLength(tenths, unit), 'm') as number) - tenths)).toBeLessThanOrEqual(51)
      }),
      settings,
    )
  })

  it('counts exactly', () => {
    const threads = fc.integer({ min: 8, max: 60 })
    fc.assert(
      fc.property(threads, threads, fc.constantFrom(25_400, 100_000), (across, up, perUm) => {
        const [ends, picks] = [
          { threads: perUm === 25_400 ? across : across * 4, perUm },
          { threads: perUm === 25_400 ? up : up * 4, perUm },
        ]
        expect(parseCount(formatCount(ends, picks))).toEqual({ ends, picks, over: null })
      }),
      settings,
    )
  })

  it('prices exactly', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 100_000_000 }),
        fc.constantFrom(null, 'GBP', 'EUR', 'USD', 'JPY', 'CHF'),
        (minor, currency) => {
          expect(parsePrice(formatPrice(minor, currency))).toEqual({ minor, currency })
        },
      ),
      settings,
    )
  })

  it('dates exactly', () => {
    fc.assert(
      fc.property(
        fc.date({ min: new Date('1900-01-01'), max: new Date('2100-12-31'), noInvalidDate: true }),
        fc.boolean(),
        (date, monthFirst) => {
          const iso = date.toISOString().slice(0, 10)
          expect(parseDate(formatDate(iso), { monthFirst })).toEqual({ iso, isAmbiguous: false })
          expect(parseDate(iso, { monthFirst })).toEqual({ iso, isAmbiguous: false })
        },
      ),
      settings,
    )
  })

  it('whole numbers with any thousands mark', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 999_999_999 }), fc.constantFrom('', ',', '.', ' ', '\u00a0'), (value, mark) => {
        expect(parseWholeNumber(String(value).replace(/\B(?=(\d{3})+$)/g, mark))).toBe(value)
      }),
      settings,
    )
  })
})

describe('any text at all', () => {
  it('is a finite value of its kind or null, never a throw or NaN', () => {
    const messy = fc.oneof(fc.string(), fc.stringMatching(/^[0-9.,/ ½x"a-z-]{0,12}$/))
    fc.assert(
      fc.property(messy, (text) => {
        for (const value of [
          parseNumber(text),
          parseWholeNumber(text),
          parseClothLength(text, 'in'),
          parseThreadLength(text, 'm'),
          parsePrice(text)?.minor ?? null,
          parseCount(text)?.ends.threads ?? null,
          parseClothSize(text, 'cm')?.widthUm ?? null,
        ]) {
          expect(value === null || Number.isFinite(value)).toBe(true)
        }
        parseDate(text, { monthFirst: true })
      }),
      { ...settings, numRuns: 3_000 },
    )
  })

  it('is refused at once when it is a megabyte long', () => {
    const started = performance.now()
    for (const text of [' ', '1', 'a', '1 ', 'x'].map((unit) => `1${unit.repeat(1_000_000)}`)) {
      for (const parse of [parseNumber, parseWholeNumber, parsePrice, parseCount]) expect(parse(text)).toBeNull()
      expect(parseClothLength(text, 'in')).toBeNull()
      expect(parseClothSize(text, 'in')).toBeNull()
      expect(parseThreadLength(text, 'm')).toBeNull()
      expect(parseDate(text, { monthFirst: false })).toBeNull()
    }
    expect(performance.now() - started).toBeLessThan(1_000)
  })
})
