import { describe, expect, it } from 'vitest'
import { countByRuler, parseReadings, type RulerReading, readingsText, soldCount } from '#lib/cloth/ruler-count'
import { UM_PER_INCH } from '#lib/quantity/cloth-length'
import { formatCount, parseCount } from '#lib/quantity/count'

const inTwoInches = (...threads: number[]): RulerReading[] =>
  threads.map((each) => ({ threads: each, lengthUm: 2 * UM_PER_INCH }))
const inFiveCm = (...threads: number[]): RulerReading[] => threads.map((each) => ({ threads: each, lengthUm: 50_000 }))

function counted(across: RulerReading[], up: RulerReading[], unit: 'in' | 'cm' = 'in') {
  const result = countByRuler({ across, up }, { weave: 'single', unit })
  if (!result.ok) throw new Error(result.error.kind)
  return result.value
}

describe('a count along a ruler', () => {
  it('takes all that was counted in all the length: 56, 57 and 58 in two inches are 171 in six', () => {
    const { ends, picks } = counted(inTwoInches(56, 57, 58), inTwoInches(56))
    expect(ends.count).toEqual({ threads: 57, perUm: 2 * UM_PER_INCH })
    expect([ends.leastPerInch, ends.mostPerInch]).toEqual([28, 29])
    expect(formatCount(ends.count, picks.count)).toBe('28.5 × 28 count')
  })

  it('weighs a longer length by its length: 28 in one inch and 87 in three are 115 in four', () => {
    const across = [
      { threads: 28, lengthUm: UM_PER_INCH },
      { threads: 87, lengthUm: 3 * UM_PER_INCH },
    ]
    expect(counted(across, inTwoInches(57)).ends.count).toEqual(parseCount('28.75')?.ends)
  })

  it('counted along a ruler in centimetres is written to 10 cm', () => {
    const { ends, picks } = counted(inFiveCm(55, 55.5, 55), inFiveCm(55), 'cm')
    expect(formatCount(ends.count, picks.count)).toBe('110.33 × 110 per 10 cm')
    expect(picks.count).toEqual(parseCount('110 per 10 cm')?.picks)
  })

  it('points at the reading that lies far from the others', () => {
    // Of 65 in two inches four per cent are 2.6 threads, more than the one that a slip of the ruler makes.
    const { ends } = counted(inTwoInches(64, 65, 66, 63, 72), inTwoInches(64))
    expect(ends.readings.map(({ isOutlier }) => isOutlier)).toEqual([false, false, false, false, true])
    expect(counted(inTwoInches(64, 65, 63), inTwoInches(64)).ends.readings.some(({ isOutlier }) => isOutlier)).toBe(false)
  })

  it('cannot say which of two is wrong, but that they lie too far apart', () => {
    const { ends, picks } = counted(inTwoInches(64, 67), inTwoInches(64, 65))
    expect([ends.isApart, picks.isApart]).toEqual([true, false])
    expect(ends.readings.map(({ isOutlier }) => isOutlier)).toEqual([false, false])
  })

  it('does not call cloth uneven on the strength of half a thread at either end', () => {
    // Half a thread in two inches each way: a quarter of a thread to the inch and a quarter, so half of one is open, a whole is not.
    expect(counted(inTwoInches(64), inTwoInches(63)).squareness).toBe('open')
    expect(counted(inTwoInches(64), inTwoInches(62)).squareness).toBe('uneven')
    expect(counted(inTwoInches(64), inTwoInches(64))).toMatchObject({ squareness: 'square', unevenPercent: 0 })
  })

  it('is refused while a way has no reading, or comes out as no cloth', () => {
    const refusal = (across: RulerReading[], up: RulerReading[]) => {
      const result = countByRuler({ across, up }, { weave: 'single', unit: 'in' })
      return result.ok ? null : result.error
    }
    expect(refusal([], inTwoInches(64))).toEqual({ kind: 'no-reading', way: 'ends' })
    expect(refusal(inTwoInches(64), [])).toEqual({ kind: 'no-reading', way: 'picks' })
    expect(refusal(inTwoInches(64), inTwoInches(1))).toEqual({ kind: 'no-count', way: 'picks', perInch: 0.5 })
    expect(refusal(inTwoInches(401), inTwoInches(64))).toMatchObject({ kind: 'no-count', way: 'ends' })
  })

  it('throws at a reading nobody can have made', () => {
    for (const reading of [
      { threads: 0, lengthUm: 50_000 },
      { threads: 63.25, lengthUm: 50_000 },
      { threads: 64, lengthUm: 4_999 },
      { threads: 64, lengthUm: Number.NaN },
    ])
      expect(() => counted([reading], inTwoInches(64))).toThrow(RangeError)
  })
})

describe('what a count is sold as', () => {
  it('is the nearest that is commonly woven, within five per cent', () => {
    expect([31.25, 27.6, 35.4, 39, 19.7].map((mean) => soldCount(mean, 'single'))).toEqual([32, 28, 35, 40, 20])
    expect([13.8, 16.4, 18].map((mean) => soldCount(mean, 'block'))).toEqual([14, 16, 18])
  })

  it('is the count itself where nothing like it is woven', () => {
    expect(soldCount(12.4, 'block')).toBe(12)
    expect(soldCount(70, 'single')).toBe(70)
  })
})

describe('readings in an address', () => {
  it('read back as they were', () => {
    const readings = [...inTwoInches(64, 63.5), ...inFiveCm(60)]
    expect(readingsText(readings)).toBe('64/50800 63.5/50800 60/50000')
    expect(parseReadings(readingsText(readings))).toEqual(readings)
    expect(parseReadings('')).toEqual([])
  })

  it('are refused whole when one is no reading', () => {
    for (const text of ['64', '64/50800 x', '64/1', '0/50800', '63.2/50800', Array(21).fill('64/50800').join(' ')])
      expect(parseReadings(text), text).toBeNull()
  })
})
