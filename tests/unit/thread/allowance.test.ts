import { describe, expect, it } from 'vitest'
import { type AllowanceReading, allowanceChoiceOf, allowanceOf, factorOf, learnAllowance } from '#lib/thread/allowance'

const settings = { allowance: 1.45 }

describe('the allowance of a design', () => {
  it('is that of the settings where the design has none', () => expect(allowanceOf({ allowance: null }, settings)).toBe(1.45))

  it.each([
    ['solid blocks', 1.3],
    ['ordinary', 1.5],
    ['scattered', 1.8],
  ])('of %s is %d, whatever the settings', (profile, factor) =>
    expect(allowanceOf({ allowance: allowanceChoiceOf(profile, null) }, settings)).toBe(factor),
  )

  it('is its own factor', () => expect(allowanceOf({ allowance: allowanceChoiceOf('own', 142) }, settings)).toBe(1.42))

  it.each([
    [null, null],
    [null, 142],
    ['own', null],
    ['own', 99],
    ['own', 501],
    ['generous', 150],
  ])('follows the settings where %s and %s are kept', (profile, hundredths) =>
    expect(allowanceChoiceOf(profile, hundredths)).toBeNull(),
  )
})

describe('one’s own allowance', () => {
  /** 10 m in the stitches, so that 14.2 m used is 1.42. */
  const reading = (factor: number, projectId = 'rooks', flat = 0): AllowanceReading => ({
    ...{ projectId, usedStrandTenths: Math.round(factor * 100_000) + flat, plainStrandTenths: 100_000, flatStrandTenths: flat },
  })

  it('takes knots and beads off before it divides', () => {
    // (15.2 − 1) ÷ 10 m.
    expect(factorOf({ projectId: 'a', usedStrandTenths: 152_000, plainStrandTenths: 100_000, flatStrandTenths: 10_000 })).toBe(
      1.42,
    )
    expect(() => factorOf({ ...reading(1), plainStrandTenths: 0 })).toThrow(RangeError)
  })

  it('is the middle reading, with the spread, the middle half, colours and pieces', () => {
    const readings = [
      reading(1.55, 'rooks'),
      reading(1.31, 'rooks', 5_000),
      reading(1.42, 'lamp'),
      reading(1.46, 'lamp'),
      reading(1.38, 'kettle'),
    ]
    expect(learnAllowance(readings)).toEqual({
      ...{ factor: 1.42, least: 1.31, most: 1.55, lowerQuarter: 1.38, upperQuarter: 1.46, colourCount: 5, pieceCount: 3 },
    })
  })

  it('lies halfway between the two middle ones of an even number', () => {
    const learnt = learnAllowance([reading(1.3), reading(1.4), reading(1.5), reading(1.9)])
    expect(learnt?.factor).toBe(1.45)
    // A quarter of the way along three gaps: 0.75 of the first, and 0.25 of the last.
    expect(learnt?.lowerQuarter).toBeCloseTo(1.375, 10)
    expect(learnt?.upperQuarter).toBeCloseTo(1.6, 10)
  })

  it('is not carried off by one slip among large figures', () => {
    const slip: AllowanceReading = {
      projectId: 'a',
      usedStrandTenths: 9_800_000,
      plainStrandTenths: 2_000_000,
      flatStrandTenths: 0,
    }
    expect(learnAllowance([reading(1.4), reading(1.42), reading(1.44), slip])?.factor).toBe(1.43)
  })

  it('leaves out what cannot be true: less than lies in the stitches, or over five times it', () => {
    const learnt = learnAllowance([reading(0.4), reading(7), reading(1.4), reading(1.5), reading(1.6)])
    expect(learnt).toMatchObject({ factor: 1.5, least: 1.4, most: 1.6, colourCount: 3 })
  })

  it('is not known under three readings that can be true', () => {
    expect(learnAllowance([])).toBeNull()
    expect(learnAllowance([reading(1.4), reading(1.5), reading(0.2)])).toBeNull()
  })
})
