// Linen that is not square: a scenario of the trade worked by hand. The Ropewalk Sampler, 96 × 312 over two, on 34 ends × 31 picks, a
// piece of 18 (weft) × 27 (warp) in. Upright: 96/17 = 5.647 and 312/15.5 = 20.129; with 6 in 11.647 × 26.129, up to the half inch
// 12 × 26.5: fits. Turned: 96/15.5 = 6.194 and 312/17 = 18.353; 12.194 × 24.353, so 12.5 × 24.5, and 24.5 does not go along 18.
// Taken as 32 both ways it would have come to 12 × 25.5, which is 0.63 in less than the true 26.13.
import { describe, expect, it } from 'vitest'
import { distortionOf } from '#lib/cloth/distortion'
import { cutSize, finishedSize } from '#lib/cloth/finished-size'
import { type ClothRequest, fitOneWay, fitPiece } from '#lib/cloth/fit'
import { finishingMargins } from '#lib/cloth/margins'
import { formatClothSize, UM_PER_INCH } from '#lib/quantity/cloth-length'
import { parseCount } from '#lib/quantity/count'

const linen = parseCount('34 x 31')
const square = parseCount('32')
if (!linen || !square) throw new Error('counts')

const request: ClothRequest = {
  width: 96,
  height: 312,
  over: 2,
  margins: finishingMargins.framed,
  shrinkPercent: 0,
  roundingUm: UM_PER_INCH / 2,
  uncertaintyUm: 0,
}
const piece = {
  ends: linen.ends,
  picks: linen.picks,
  widthUm: 18 * UM_PER_INCH,
  heightUm: 27 * UM_PER_INCH,
  isTurnable: true,
  isSquared: true,
  washState: 'unknown' as const,
}
const inches = (um: number) => (um / UM_PER_INCH).toFixed(3)

describe('linen that is not square', () => {
  it('fits upright with 12 × 26.5 in to cut', () => {
    const fit = fitPiece(request, piece)
    expect(fit).toMatchObject({ kind: 'fits', isTurned: false, nothingToSpare: false })
    expect([inches(fit.finished.widthUm), inches(fit.finished.heightUm)]).toEqual(['5.647', '20.129'])
    expect([inches(fit.cut.exactWidthUm), inches(fit.cut.exactHeightUm)]).toEqual(['11.647', '26.129'])
    expect(formatClothSize(fit.cut, 'in')).toBe('12 × 26½ in')
  })

  it('comes out another size turned, and does not fit that way', () => {
    const turned = fitOneWay(request, piece, true)
    expect([inches(turned.finished.widthUm), inches(turned.finished.heightUm)]).toEqual(['6.194', '18.353'])
    expect(formatClothSize(turned.cut, 'in')).toBe('12½ × 24½ in')
    expect(turned.kind).toBe('too-small')
  })

  it('says which way the stitches are longer', () => {
    // A circle as wide as the smaller side, 96 stitches: 96/17 = 5.647 wide, 96/15.5 = 6.194 tall.
    const upright = distortionOf(request, piece, request.over, false)
    expect(upright).toMatchObject({ stitches: 96, way: 'taller' })
    expect([inches(upright?.wideUm ?? 0), inches(upright?.tallUm ?? 0)]).toEqual(['5.647', '6.194'])
    expect(distortionOf(request, piece, request.over, true)).toMatchObject({ stitches: 96, way: 'wider' })
  })

  it('would have been cut 0.63 in too short if taken as 32 both ways', () => {
    const finished = finishedSize({ ...request, ends: square.ends, picks: square.picks, isTurned: false })
    const cut = cutSize({ ...request, finished })
    expect(formatClothSize(cut, 'in')).toBe('12 × 25½ in')
    expect(((fitPiece(request, piece).cut.exactHeightUm - cut.exactHeightUm) / UM_PER_INCH).toFixed(2)).toBe('0.63')
  })
})
