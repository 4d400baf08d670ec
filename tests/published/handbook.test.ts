// Arithmetic and rules that general handbooks print, reworded: excerpts were read, not whole pages.
// - 140 stitches at 14 to the inch are 10 in; over two threads, divide by half the thread count: a needlework guild's pages for members
//   on design size.
// - 20-count linen over two gives 10 stitches to the inch: Tampa Bay Times, 4 October 1992.
// - A piece of 5 × 7 in at 14 to the inch: a youth honours handbook on counted cross stitch (70 × 98 stitches worked out by hand).
// - Ends and picks are counted apart and may be given to the centimetre or decimetre: scopes of ISO 7211-2 and ASTM D3775. Threads per
//   10 cm = count × 100 / 25.4, on the exact inch.
// Margins differ from source to source (2 in in all, 3 in a side, 5 in in all), so they are settings and no value is held against one.
import { describe, expect, it } from 'vitest'
import { estimateStitches, finishedSize } from '#lib/cloth/finished-size'
import { parseCount, perInch, pitchUm } from '#lib/quantity/count'

const counted = (text: string) => {
  const count = parseCount(text)
  if (!count) throw new Error(text)
  return count
}

describe('cloth against handbook examples', () => {
  it('makes 140 stitches at 14 to the inch ten inches', () => {
    const { ends, picks } = counted('14')
    expect(finishedSize({ width: 140, height: 140, ends, picks, over: 1, isTurned: false }).widthUm).toBeCloseTo(254_000, 6)
  })

  it.each([
    ['28', 14],
    ['20', 10],
  ])('gives %s count over two %i stitches to the inch', (text, stitches) => {
    expect(25_400 / pitchUm(counted(text).ends, 2)).toBeCloseTo(stitches, 10)
  })

  it('reads 5 × 7 in at 14 to the inch as 70 × 98 stitches', () => {
    const estimate = estimateStitches({ widthUm: 127_000, heightUm: 177_800, count: counted('14').ends, over: 1 })
    expect(estimate).toMatchObject({ width: 70, height: 98 })
  })

  it.each([
    [11, 43.3071],
    [14, 55.1181],
    [16, 62.9921],
    [18, 70.8661],
    [20, 78.7402],
    [22, 86.6142],
    [25, 98.4252],
    [28, 110.2362],
    [32, 125.9843],
    [36, 141.7323],
    [40, 157.4803],
  ])('%i to the inch is %f to 10 cm', (count, perTenCm) => {
    expect(perInch({ threads: perTenCm * 10_000, perUm: 1_000_000_000 })).toBeCloseTo(count, 4)
    expect(perInch(counted(`${perTenCm.toFixed(2)} per 10 cm`).ends)).toBeCloseTo(count, 2)
  })
})
