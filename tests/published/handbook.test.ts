// Arithmetic and rules that general handbooks print, reworded: excerpts were read, not whole pages.
// - 140 stitches at 14 to the inch are 10 in; over two threads, divide by half the thread count: a needlework guild's pages for members
//   on design size.
// - 20-count linen over two gives 10 stitches to the inch: Tampa Bay Times, 4 October 1992.
// - A piece of 5 × 7 in at 14 to the inch: a youth honours handbook on counted cross stitch (70 × 98 stitches worked out by hand).
// - Ends and picks are counted apart and may be given to the centimetre or decimetre: scopes of ISO 7211-2 and ASTM D3775. Threads per
//   10 cm = count × 100 / 25.4, on the exact inch.
// Margins differ from source to source (2 in in all, 3 in a side, 5 in in all), so they are settings and no value is held against one;
// only what comes of adding each of them is.
import { describe, expect, it } from 'vitest'
import { cutSize, estimateStitches, finishedSize } from '#lib/cloth/finished-size'
import { usualCounts } from '#lib/cloth/frame-opening'
import { marginsAllRound } from '#lib/cloth/margins'
import { requestInThreads } from '#lib/cloth/motifs'
import { parseCount, perInch, pitchUm } from '#lib/quantity/count'
import handbook from './data/cloth-handbook.json'

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

  it.each(handbook.sizes)('makes $stitches stitches at $threadsPerInch to the inch over $over $inches in: $source', (given) => {
    const { stitches, threadsPerInch, inches } = given
    const over = given.over === 2 ? 2 : 1
    const { ends, picks } = counted(String(threadsPerInch))
    const size = { width: stitches, height: stitches }
    expect(finishedSize({ ...size, ends, picks, over, isTurned: false }).widthUm / 25_400).toBeCloseTo(inches, 9)
    // The same counted in threads, as several motifs on one cloth are.
    const motifs = { across: 1, down: 1, gapThreads: 0 }
    const plain = { uncertaintyUm: 0, motifs, margins: marginsAllRound(0), shrinkPercent: 0, roundingUm: 12_700 }
    const request = requestInThreads({ ...size, ...plain }, over)
    expect(finishedSize({ ...request, ends, picks, isTurned: false }).heightUm / 25_400).toBeCloseTo(inches, 9)
  })

  it.each(handbook.addedInAll)('adds $inches in in all, half on each side: $source', ({ inches, centimetres }) => {
    const finished = { widthUm: 254_000, heightUm: 177_800 }
    const cut = cutSize({ finished, margins: marginsAllRound((inches * 25_400) / 2), shrinkPercent: 0, roundingUm: 6_350 })
    expect([cut.exactWidthUm / 25_400, cut.exactHeightUm / 25_400]).toEqual([10 + inches, 7 + inches])
    // Printed centimetres are rounded: to the half or the whole.
    expect(Math.abs((cut.exactWidthUm - finished.widthUm) / 10_000 - centimetres)).toBeLessThan(0.5)
  })

  it('holds an opening against the counts that are usual', () => {
    expect(usualCounts.block).toEqual(handbook.usualCounts.counts)
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
