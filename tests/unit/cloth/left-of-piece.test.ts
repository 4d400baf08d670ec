import { describe, expect, it } from 'vitest'
import { fitPiece } from '#lib/cloth/fit'
import { leftOfPiece, takenOf } from '#lib/cloth/left-of-piece'
import { aPiece, aRequest, inches } from './cloth-pieces'

const sizes = (left: { widthUm: number; heightUm: number }[]) =>
  left.map(({ widthUm, heightUm }) => [widthUm / inches(1), heightUm / inches(1)])
const fiveInches = inches(5)

describe('what a cut leaves of a piece', () => {
  // Scenario A1: 16 × 13 in to cut. From 18 × 27 the strip above is 18 × 14; cut upwards first there would be 16 × 14 and 2 × 27.
  it('keeps the largest single piece, larger first', () => {
    const piece = aPiece()
    const fit = fitPiece(aRequest(), piece)
    expect(fit).toMatchObject({ kind: 'fits', isTurned: false })
    expect(sizes(leftOfPiece(piece, fit, 0))).toEqual([
      [18, 14],
      [2, 13],
    ])
    expect(sizes(leftOfPiece(piece, fit, fiveInches))).toEqual([[18, 14]])
  })

  it('cuts upwards first where that leaves more in one piece', () => {
    const wide = aPiece({ widthUm: inches(30), heightUm: inches(20), isTurnable: false })
    // 14 × 20 beside the cut, against 30 × 7 above it.
    expect(sizes(leftOfPiece(wide, fitPiece(aRequest(), wide), fiveInches))).toEqual([
      [14, 20],
      [16, 7],
    ])
  })

  it('lays a turned design the other way about', () => {
    // A fat eighth, 13 × 18, turned: 13 of 13 along the weft, 16 of 18 along the warp.
    const eighth = aPiece({ widthUm: inches(13), heightUm: inches(18) })
    const fit = fitPiece(aRequest(), eighth)
    expect(fit.isTurned).toBe(true)
    expect(takenOf(eighth, fit)).toEqual({ widthUm: inches(13), heightUm: inches(16) })
    expect(sizes(leftOfPiece(eighth, fit, inches(1)))).toEqual([[13, 2]])
    expect(leftOfPiece(eighth, fit, fiveInches)).toEqual([])
  })

  it('takes all of a side where the rounded cut, or its margin, would not fit', () => {
    // 10.1 + 6 = 16.1 in, rounded up to 16.5, from 16.25.
    const tight = aPiece({ widthUm: inches(16.25), heightUm: inches(27), isTurnable: false })
    const fit = fitPiece(aRequest({ width: 141 }), tight)
    expect(fit.kind).toBe('fits')
    expect(takenOf(tight, fit).widthUm).toBe(Math.ceil((141 / 14 + 6) * inches(1)))
    const small = aPiece({ widthUm: inches(12.75), heightUm: inches(17.5) })
    const near = fitPiece(aRequest(), small)
    expect(near.kind).toBe('smaller-margin')
    expect(takenOf(small, near)).toEqual({ widthUm: inches(12.75), heightUm: inches(16) })
  })
})
