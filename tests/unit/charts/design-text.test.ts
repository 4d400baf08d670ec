import { describe, expect, it } from 'vitest'
import { parseCount, sameCount } from '#lib/quantity/count'
import { adviceText, designSizeText, parseDesignSize, putUpText } from '../../../app/_charts/design-text'

describe("a design's size as it is typed", () => {
  it.each([
    ['140 x 98', { kind: 'stitches', width: 140, height: 98 }],
    ['140×98 stitches', { kind: 'stitches', width: 140, height: 98 }],
    ['1,240 by 980', { kind: 'stitches', width: 1_240, height: 980 }],
    ['8 x 6 in', { kind: 'measured', widthUm: 203_200, heightUm: 152_400 }],
    ['8½" x 6"', { kind: 'measured', widthUm: 215_900, heightUm: 152_400 }],
    ['20 x 15.5 cm', { kind: 'measured', widthUm: 200_000, heightUm: 155_000 }],
    ['  ', { kind: 'unknown' }],
  ])('reads %s', (text, size) => {
    expect(parseDesignSize(text)).toEqual(size)
  })

  it.each(['140', '8.5 x 6', '140 x 0', 'large', '140 x 98 x 2', '1000000 x 2'])('does not take %s for one', (text) => {
    expect(parseDesignSize(text)).toBeNull()
  })

  it('shows a ruled size in the unit wanted, or in one that keeps it exact', () => {
    const size = { kind: 'measured' as const, widthUm: 203_200, heightUm: 152_400 }
    expect([designSizeText(size, 'in'), designSizeText(size, 'cm')]).toEqual(['8 × 6 in', '20.32 × 15.24 cm'])
    const odd = { kind: 'measured' as const, widthUm: 123_457, heightUm: 98_761 }
    for (const unit of ['in', 'cm'] as const) expect(parseDesignSize(designSizeText(odd, unit))).toEqual(odd)
  })
})

describe('an advised count and a put-up in their fields', () => {
  it.each([
    { threads: 28, perUm: 25_400 },
    { threads: 110, perUm: 100_000 },
    { threads: 225, perUm: 203_200 },
  ])('reads again as the same count: %o', (count) => {
    const read = parseCount(adviceText({ count, over: 2 }))
    expect(read?.over).toBe(2)
    expect(read && sameCount(read.ends, count)).toBe(true)
  })

  it('shows a length in metres or yards, whichever keeps it exact', () => {
    expect([putUpText(80_000, 'm'), putUpText(73_152, 'm'), putUpText(500_001, 'yd')]).toEqual(['8 m', '8 yd', '50000.1 mm'])
  })
})
