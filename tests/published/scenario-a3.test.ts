// Thread need: a scenario of the trade worked by hand. One colour at 14 to the inch: 2,940 full crosses (2 strands), 120 units of
// backstitch (1 strand), 30 one-wrap knots (2 strands), allowance 1.5. Pitch 1.8143 mm. Full 2,940 × 4.82843 × 1.81429 × 2 = 51,510 mm;
// back 120 × 3 × 1.8143 = 653; sum 52,163 × 1.5 = 78,244; knots 30 × 12 × 2 = 720; total 78,964 mm of strand, 13.16 m of six.
// Put-ups: 8 m 1.65, so 2; 8 yd 1.80, so 2; 5 yd 2.88, so 3.
import { describe, expect, it } from 'vitest'
import { pitchUm } from '#lib/quantity/count'
import { formatThreadLength, parseThreadLength } from '#lib/quantity/thread-length'
import { defaultAllowance } from '#lib/thread/allowance'
import { putUpsFor } from '#lib/thread/put-ups'
import { threadUse } from '#lib/thread/thread-use'

const pitch = pitchUm({ threads: 14, perUm: 25_400 }, 1)
const settings = { working: 'rows', acrossUm: pitch, upUm: pitch, allowance: defaultAllowance } as const
const twoStrands = threadUse({ tally: { full: 2_940, knotOneWrap: 30 }, strands: 2, ...settings })
const oneStrand = threadUse({ tally: { backstitch: 120 }, strands: 1, ...settings })
const needTenths = twoStrands.strandTenths + oneStrand.strandTenths
const wholeMm = (tenths: number) => Math.round(tenths / 10)

describe('thread need', () => {
  it('shows each step of the arithmetic', () => {
    const [full, knots] = twoStrands.parts
    expect(wholeMm(full?.strandTenths ?? 0)).toBe(51_510)
    expect(full?.pitches).toBeCloseTo(4.828_43, 5)
    expect(wholeMm(oneStrand.bareStrandTenths)).toBe(653)
    expect(wholeMm(twoStrands.allowedStrandTenths + oneStrand.allowedStrandTenths)).toBe(78_244)
    expect(wholeMm(knots?.flatStrandTenths ?? 0)).toBe(720)
  })

  it('comes to 78,964 mm of strand, 13.16 m of six', () => {
    expect(wholeMm(needTenths)).toBe(78_964)
    expect(formatThreadLength(needTenths / 6, 'm')).toBe('13.16 m')
  })

  it.each([
    ['8 m', 2],
    ['8 yd', 2],
    ['5 yd', 3],
  ])('takes, of put-ups of %s, %i', (putUp, expected) => {
    expect(putUpsFor(needTenths, (parseThreadLength(putUp, 'm') as number) * 6)).toBe(expected)
  })
})
