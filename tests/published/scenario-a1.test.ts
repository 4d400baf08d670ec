// Cut for framing: a scenario of the trade worked by hand. Rook Hill in Snow, 140 × 98, 28-count evenweave over two, 3 in all round:
// 28/2 = 14 to the inch; 140/14 = 10 and 98/14 = 7; with 6 in of margin 16 × 13 in (40.64 × 33.02 cm). A fat eighth, nominally
// 13 × 18, turned: 13 <= 13 and 16 <= 18, with nothing spare on one side. The same piece measured after squaring, 12.75 × 17.5: 13 > 12.75,
// so not at 3 in; it fits if that margin drops to (12.75 - 7)/2 = 2.875 in. Both are said of a nominal piece: it fits as it stands, and
// after the usual loss of 1/4 in a side (12.5 × 17.5) only if that margin drops to (12.5 - 7)/2 = 2.75 in.
import { describe, expect, it } from 'vitest'
import { fitAfterSquaring } from '#lib/cloth/after-squaring'
import { type ClothRequest, fitOneWay, fitPiece } from '#lib/cloth/fit'
import { defaultFinishing, finishingMargins } from '#lib/cloth/margins'
import { formatClothSize, UM_PER_INCH } from '#lib/quantity/cloth-length'
import { parseCount } from '#lib/quantity/count'
import { squaringWords } from '#words/cloth-size'

const cloth = parseCount('28 ct over 2')
if (!cloth?.over) throw new Error('28 ct over 2')

const request: ClothRequest = {
  width: 140,
  height: 98,
  over: cloth.over,
  margins: finishingMargins[defaultFinishing],
  shrinkPercent: 0,
  roundingUm: UM_PER_INCH / 2,
  uncertaintyUm: 0,
}
const fatEighth = {
  ends: cloth.ends,
  picks: cloth.picks,
  widthUm: 13 * UM_PER_INCH,
  heightUm: 18 * UM_PER_INCH,
  isTurnable: true,
  isSquared: false,
  washState: 'unknown' as const,
}

describe('cutting for framing', () => {
  it('cuts 16 × 13 in, which is 40.64 × 33.02 cm', () => {
    const { cut } = fitPiece(request, fatEighth)
    expect(formatClothSize(cut, 'in')).toBe('16 × 13 in')
    expect(formatClothSize(cut, 'cm')).toBe('40.64 × 33.02 cm')
  })

  it('fits a nominal fat eighth only turned, with nothing spare on one side and a word to square it first', () => {
    expect(fitOneWay(request, fatEighth, false).kind).not.toBe('fits')
    const fit = fitPiece(request, fatEighth)
    expect(fit).toMatchObject({ kind: 'fits', isTurned: true, nothingToSpare: true, squareFirst: true, fitsAfterSquaring: false })
    if (fit.kind !== 'fits') throw new Error(fit.kind)
    expect(fit.spareHeightUm).toBeCloseTo(0, 3)
    expect(fit.spareWidthUm).toBeCloseTo(2 * UM_PER_INCH, 3)
  })

  it('says both of the nominal piece: it fits, and once squared only at 2.75 in above and below', () => {
    expect(fitPiece(request, fatEighth).kind).toBe('fits')
    const after = fitAfterSquaring(request, fatEighth)
    expect(after).toMatchObject({ kind: 'smaller-margin', isTurned: true, dimension: 'height', marginUm: 2.75 * UM_PER_INCH })
    expect(squaringWords(after, 'in')).toBe(
      'Square it first: once it has lost the usual ¼ in a side it fits turned only if the margin above and below drops to 2¾ in.',
    )
  })

  it('says nothing of squaring for the measured piece', () => {
    expect(fitAfterSquaring(request, { ...fatEighth, isSquared: true })).toBeNull()
  })

  it('does not fit the measured piece at 3 in, and says that 2.875 in above and below would', () => {
    const measured = {
      ...fatEighth,
      widthUm: 12.75 * UM_PER_INCH,
      heightUm: 17.5 * UM_PER_INCH,
      isSquared: true,
      washState: 'unknown' as const,
    }
    expect(fitPiece(request, measured)).toMatchObject({
      kind: 'smaller-margin',
      isTurned: true,
      dimension: 'height',
      marginUm: 2.875 * UM_PER_INCH,
      margins: { leftUm: 76_200, rightUm: 76_200, topUm: 73_025, bottomUm: 73_025 },
    })
  })
})
