import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { clothText, countText, priceText, threadText } from '#lib/archive/exact-text'
import { parseClothLength } from '#lib/quantity/cloth-length'
import { parseCount, sameCount } from '#lib/quantity/count'
import { parsePrice } from '#lib/quantity/money'
import { parseThreadLength } from '#lib/quantity/thread-length'

const seeded = { seed: 20_261_130, numRuns: 500 }

describe('figures of a sheet', () => {
  it('are written as they are sold', () => {
    // 1 yd is 0.9144 m and 1 in 25.4 mm, exactly (international yard and pound agreement, 1959).
    expect(threadText(80_000)).toBe('8 m')
    expect(threadText(73_152)).toBe('8 yd')
    expect(threadText(73_151)).toBe('7.3151 m')
    expect(clothText(457_200)).toBe('18 in')
    expect(clothText(463_550)).toBe('18.25 in')
    expect(clothText(450_000)).toBe('45 cm')
    expect(clothText(123_457)).toBe('12.3457 cm')
    expect(priceText(1_450)).toBe('14.50')
    expect(priceText(5)).toBe('0.05')
    const inch = (threads: number) => ({ threads, perUm: 25_400 })
    expect(countText(inch(28), inch(28), 2)).toBe('28 over 2')
    expect(countText(inch(34), inch(31), null)).toBe('34 x 31')
    expect(countText({ threads: 110, perUm: 100_000 }, { threads: 110, perUm: 100_000 }, null)).toBe('110/10cm')
    expect(countText({ threads: 11, perUm: 10_000 }, { threads: 11, perUm: 10_000 }, 2)).toBe('110/10cm over 2')
  })

  it('are read back as what they were, to the last tenth', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 20_000_000 }), (tenths) => parseThreadLength(threadText(tenths), 'm') === tenths),
      seeded,
    )
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 100_000_000 }), (um) => parseClothLength(clothText(um), 'in') === um),
      seeded,
    )
    fc.assert(
      fc.property(fc.nat(100_000_000), (minor) => parsePrice(priceText(minor))?.minor === minor),
      seeded,
    )
    const count = fc.record({ threads: fc.integer({ min: 6, max: 60 }), per: fc.constantFrom(25_400, 100_000, 10_000, 50_800) })
    fc.assert(
      fc.property(count, count, fc.constantFrom(null, 1 as const, 2 as const), (first, second, over) => {
        const isTenCm = first.per % 10_000 === 0
        const ends = { threads: isTenCm && first.per === 100_000 ? first.threads * 4 : first.threads, perUm: first.per }
        const picks = { threads: isTenCm && first.per === 100_000 ? second.threads * 4 : second.threads, perUm: first.per }
        const read = parseCount(countText(ends, picks, over))
        return read !== null && sameCount(read.ends, ends) && sameCount(read.picks, picks) && read.over === over
      }),
      seeded,
    )
  })
})
