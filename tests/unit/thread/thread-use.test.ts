import { describe, expect, it } from 'vitest'
import { allowanceProfiles, defaultAllowance, isAllowance } from '#lib/thread/allowance'
import { lengthByWeight, putUpLabel, putUpRange, putUpsFor, rescaleStated } from '#lib/thread/put-ups'
import { flatLengthUm, stitchLengthUm } from '#lib/thread/stitch-geometry'
import { roundUpTenths, stitchesFrom, threadUse } from '#lib/thread/thread-use'

const square = { acrossUm: 1_000, upUm: 1_000 }
const bare = { strands: 1, working: 'rows', allowance: 1, ...square } as const

describe('stitchLengthUm', () => {
  it('keeps knots flat on any cloth, and adds a flat pass to a bead’s half stitch', () => {
    expect(stitchLengthUm('knotOneWrap', 'rows', square)).toBe(12_000)
    expect(stitchLengthUm('knotTwoWrap', 'rows', { acrossUm: 5_000, upUm: 1 })).toBe(20_000)
    expect(stitchLengthUm('bead', 'rows', square)).toBeCloseTo(stitchLengthUm('half', 'rows', square) + 3_000, 9)
    expect(flatLengthUm('full')).toBe(0)
  })

  it('crosses cloth that is not square along its own diagonals: 3 across and 4 up make 5', () => {
    const cloth = { acrossUm: 3_000, upUm: 4_000 }
    expect(stitchLengthUm('full', 'rows', cloth)).toBe(2 * 5_000 + 2 * 4_000)
    expect(stitchLengthUm('full', 'crosses', cloth)).toBe(3 * 5_000 + 4_000)
    expect(stitchLengthUm('quarter', 'rows', cloth)).toBe(5_000)
    expect(stitchLengthUm('backstitch', 'rows', cloth)).toBe(3 * 3_500)
    expect(stitchLengthUm('satin', 'rows', cloth)).toBe(2 * 3_500)
    // Two arms along each side, four across: in front, and as much behind.
    expect(stitchLengthUm('eyelet', 'rows', cloth)).toBe(2 * (2 * 3_000 + 2 * 4_000 + 4 * 5_000))
  })
})

describe('stitches of the trade that have no table', () => {
  // Common practice, no published source: satin twice the length of its throws, an eyelet of eight arms about 19 pitches.
  it('take what is said of them', () => {
    expect(stitchLengthUm('satin', 'rows', square) / 1_000).toBe(2)
    expect(Math.round(stitchLengthUm('eyelet', 'rows', square) / 1_000)).toBe(19)
  })
})

describe('threadUse', () => {
  it('takes more thread cross by cross than in rows', () => {
    const rows = threadUse({ ...bare, tally: { full: 100 } })
    const crosses = threadUse({ ...bare, working: 'crosses', tally: { full: 100 } })
    expect(rows.strandTenths).toBe(4_829)
    expect(crosses.strandTenths).toBe(5_243)
  })

  it('puts the allowance on what follows the cloth and not on knots and beads’ passes', () => {
    const use = threadUse({ ...bare, strands: 2, allowance: 2, tally: { doubleRunning: 10, knotOneWrap: 5, bead: 1 } })
    expect(use.flatStrandTenths).toBe((5 * 12 + 3) * 10 * 2)
    const halfTenths = (Math.SQRT2 + 1) * 10
    expect(use.allowedStrandTenths).toBeCloseTo(2 * 2 * (10 * 2 * 10 + halfTenths), 9)
    expect(use.strandTenths).toBe(Math.ceil(use.allowedStrandTenths + use.flatStrandTenths))
  })

  it('rounds up once, at the end', () => {
    const one = { ...bare, acrossUm: 10, upUm: 10 }
    expect(threadUse({ ...one, tally: { backstitch: 1, doubleRunning: 1 } }).strandTenths).toBe(1)
    expect(roundUpTenths(0.1 + 0.2 - 0.3 + 7)).toBe(7)
  })

  it('needs nothing for no stitches', () =>
    expect(threadUse({ ...bare, tally: {} })).toMatchObject({ strandTenths: 0, parts: [] }))

  it('gives pitches only on cloth the same both ways', () => {
    expect(threadUse({ ...bare, tally: { backstitch: 1 } }).parts[0]?.pitches).toBe(3)
    expect(threadUse({ ...bare, upUm: 900, tally: { backstitch: 1 } }).parts[0]?.pitches).toBeNull()
  })

  it.each([
    { strands: 0 },
    { strands: 1.5 },
    { allowance: 0 },
    { allowance: Number.NaN },
    { acrossUm: 0 },
    { tally: { full: -1 } },
    { tally: { full: 0.5 } },
  ])('throws on %o', (wrong) => expect(() => threadUse({ ...bare, tally: { full: 1 }, ...wrong })).toThrow(RangeError))
})

describe('stitchesFrom', () => {
  // At 14 to the inch, two strands and 1.5, 8 m of six is 1,826 crosses (capacity check of the trade notes, worked by hand).
  it.each([
    [480_000, 14, 1_826],
    [438_912, 14, 1_670],
    [274_320, 16, 1_192],
    [480_000, 18, 2_348],
  ])('gets from %d tenths at %d to the inch %d full crosses', (strandTenths, count, crosses) => {
    const pitch = 25_400 / count
    const how = { strands: 2, working: 'rows', allowance: 1.5, acrossUm: pitch, upUm: pitch } as const
    expect(Math.abs(stitchesFrom(strandTenths, { stitch: 'full', ...how }) - crosses)).toBeLessThanOrEqual(1)
  })

  it('gets exactly what fits: knots of 12 mm from 36 mm, and one fewer from a tenth less', () => {
    expect(stitchesFrom(360, { stitch: 'knotOneWrap', ...bare })).toBe(3)
    expect(stitchesFrom(359, { stitch: 'knotOneWrap', ...bare })).toBe(2)
    expect(stitchesFrom(0, { stitch: 'full', ...bare })).toBe(0)
  })

  it('refuses a length below nothing', () => expect(() => stitchesFrom(-1, { stitch: 'full', ...bare })).toThrow(RangeError))
})

describe('allowances', () => {
  it('are 1.3, 1.5 and 1.8, ordinary by default', () => {
    expect(allowanceProfiles).toEqual({ 'solid blocks': 1.3, ordinary: 1.5, scattered: 1.8 })
    expect(defaultAllowance).toBe(1.5)
    expect([0.9, 1, 1.45, 5, 15, Number.NaN].map(isAllowance)).toEqual([false, true, true, true, false, false])
  })
})

describe('put-ups', () => {
  const stated = { putUpStrandTenths: 480_000, chartPitchUm: 1_814, yourPitchUm: 1_814, chartStrands: 2, yourStrands: 2 }

  it('hold an exact need exactly', () => {
    expect(putUpsFor(438_912, 438_912)).toBe(1)
    expect(putUpsFor(438_913, 438_912)).toBe(2)
    expect(putUpsFor(0, 438_912)).toBe(0)
    expect(() => putUpsFor(1, 0)).toThrow(RangeError)
  })

  it('say the fewest and the most of a need known only between two lengths', () => {
    const range = (leastStrandTenths: number, strandTenths: number) => putUpRange({ leastStrandTenths, strandTenths }, 480_000)
    expect(range(0, 480_000)).toEqual({ fewest: 1, most: 1 })
    expect(range(480_000, 960_000)).toEqual({ fewest: 2, most: 2 })
    expect(range(479_999, 960_000)).toEqual({ fewest: 1, most: 2 })
    expect(range(960_000, 960_000)).toEqual({ fewest: 2, most: 2 })
  })

  it('are known by weight: a quarter of the weight is a quarter of the length, rounded down', () => {
    const skein = { putUpMilligrams: 4_600, putUpStrandTenths: 480_000 }
    expect(lengthByWeight({ ...skein, milligrams: 1_150 })).toBe(120_000)
    expect(lengthByWeight({ ...skein, milligrams: 1 })).toBe(104)
    expect(lengthByWeight({ ...skein, milligrams: 0 })).toBe(0)
    expect(() => lengthByWeight({ ...skein, milligrams: -1 })).toThrow(RangeError)
    expect(() => lengthByWeight({ ...skein, putUpMilligrams: 0, milligrams: 1 })).toThrow(RangeError)
  })

  it('stated whole are a range, the first from nought', () => {
    expect(rescaleStated({ ...stated, hundredths: 100 })).toEqual({ leastStrandTenths: 0, strandTenths: 480_000 })
    expect(rescaleStated({ ...stated, hundredths: 300 })).toEqual({ leastStrandTenths: 960_000, strandTenths: 1_440_000 })
  })

  it('stated as a fraction are one figure', () => {
    expect(rescaleStated({ ...stated, hundredths: 60 })).toEqual({ leastStrandTenths: 288_000, strandTenths: 288_000 })
    expect(rescaleStated({ ...stated, hundredths: 150 })).toEqual({ leastStrandTenths: 720_000, strandTenths: 720_000 })
  })

  it('follow the strands', () => expect(rescaleStated({ ...stated, hundredths: 100, yourStrands: 1 }).strandTenths).toBe(240_000))

  it('cannot be stated as none', () => expect(() => rescaleStated({ ...stated, hundredths: 0 })).toThrow(RangeError))

  it.each([
    [480_000, 6, '8 m of 6 strands'],
    [438_912, 6, '8 yd of 6 strands'],
    [274_320, 6, '5 yd of 6 strands'],
    [500_000, 1, '50 m'],
    [55_555, 1, '5.56 m'],
  ])('of %d tenths and %d strands are called %s', (tenths, strands, label) => expect(putUpLabel(tenths, strands)).toBe(label))
})
