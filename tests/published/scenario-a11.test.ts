// Unmarked cloth: a scenario of the trade worked by hand. A 2 in ruler holds 64 threads across and 61 down: 32.0 × 30.5 to the inch, not
// square (4.9 %). Wheel of Hours, 128 × 128 over two: 128/16 = 8.000 and 128/15.25 = 8.393 in high; with 3 in margins 14.000 × 14.393,
// so 14 × 14.5 in to cut; and the warning that a circle comes out 0.39 in taller than wide.
import { describe, expect, it } from 'vitest'
import { distortionOf } from '#lib/cloth/distortion'
import { cutSize, finishedSize } from '#lib/cloth/finished-size'
import { finishingMargins } from '#lib/cloth/margins'
import { oneMotif, requestInThreads } from '#lib/cloth/motifs'
import { formatClothSize, UM_PER_INCH } from '#lib/quantity/cloth-length'
import { perInch } from '#lib/quantity/count'
import { distortionWords, skewWords } from '#words/cloth-size'

const cloth = { ends: { threads: 64, perUm: 2 * UM_PER_INCH }, picks: { threads: 61, perUm: 2 * UM_PER_INCH } }
const design = { width: 128, height: 128 }
const inches = (um: number) => (um / UM_PER_INCH).toFixed(3)

describe('unmarked cloth under a ruler', () => {
  it('is counted 32.0 × 30.5, not square by 4.9 %', () => {
    expect([perInch(cloth.ends), perInch(cloth.picks)]).toEqual([32, 30.5])
    const distortion = distortionOf(design, cloth, 2, false)
    expect(distortion && skewWords(distortion)).toBe('not square, 4.9 %')
  })

  it('comes out at 8.000 × 8.393 in, and is cut 14 × 14½ in', () => {
    const question = { ...design, uncertaintyUm: 0, motifs: oneMotif, margins: finishingMargins.framed, shrinkPercent: 0 }
    const request = requestInThreads({ ...question, roundingUm: UM_PER_INCH / 2 }, 2)
    const finished = finishedSize({ ...request, ...cloth, isTurned: false })
    expect([inches(finished.widthUm), inches(finished.heightUm)]).toEqual(['8.000', '8.393'])
    const cut = cutSize({ ...request, finished })
    expect([inches(cut.exactWidthUm), inches(cut.exactHeightUm)]).toEqual(['14.000', '14.393'])
    expect(formatClothSize(cut, 'in')).toBe('14 × 14½ in')
  })

  it('warns that a circle comes out 0.39 in taller than wide, and wider than tall once turned', () => {
    const upright = distortionOf(design, cloth, 2, false)
    expect(upright && distortionWords(upright, 'in')).toBe('A circle 128 stitches across comes out 0.39 in taller than wide')
    const turned = distortionOf(design, cloth, 2, true)
    expect(turned && distortionWords(turned, 'in')).toBe('A circle 128 stitches across comes out 0.39 in wider than tall')
  })
})
