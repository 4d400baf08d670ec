import { describe, expect, it } from 'vitest'
import { fitPiece } from '#lib/cloth/fit'
import { marginsAllRound } from '#lib/cloth/margins'
import { aPiece, aRequest, inches } from './cloth-pieces'

describe('fitPiece', () => {
  it('does not turn a piece that may not be turned', () => {
    const piece = aPiece({ widthUm: inches(13.5), heightUm: inches(18) })
    expect(fitPiece(aRequest(), piece)).toMatchObject({ kind: 'fits', isTurned: true })
    expect(fitPiece(aRequest(), { ...piece, isTurnable: false })).toMatchObject({
      kind: 'smaller-margin',
      isTurned: false,
      dimension: 'width',
    })
  })

  it('keeps a piece upright where both ways serve', () => {
    expect(fitPiece(aRequest(), aPiece({ widthUm: inches(20), heightUm: inches(20) }))).toMatchObject({
      kind: 'fits',
      isTurned: false,
    })
  })

  it('judges the exact cut, and says there is nothing to spare when the rounded one would not fit', () => {
    const request = aRequest({ width: 138 })
    const exactWidthIn = 138 / 14 + 6
    expect(fitPiece(request, aPiece({ widthUm: inches(15.9), isTurnable: false }))).toMatchObject({
      kind: 'fits',
      nothingToSpare: true,
    })
    expect(fitPiece(request, aPiece({ widthUm: inches(exactWidthIn - 0.01), isTurnable: false })).kind).toBe('smaller-margin')
    expect(fitPiece(request, aPiece({ widthUm: inches(16.5), isTurnable: false }))).toMatchObject({
      kind: 'fits',
      nothingToSpare: false,
    })
  })

  it('asks to square a nominal piece, and says whether it will still fit', () => {
    const nominal = aPiece({ isSquared: false, isTurnable: false })
    expect(fitPiece(aRequest(), { ...nominal, widthUm: inches(16.5) })).toMatchObject({
      squareFirst: true,
      fitsAfterSquaring: true,
    })
    expect(fitPiece(aRequest(), { ...nominal, widthUm: inches(16.25) })).toMatchObject({
      squareFirst: true,
      fitsAfterSquaring: false,
    })
    expect(fitPiece(aRequest(), { ...nominal, widthUm: inches(16.25), isSquared: true })).toMatchObject({
      squareFirst: false,
      fitsAfterSquaring: true,
    })
  })

  it('narrows uneven margins each in its share, and leaves the others', () => {
    const margins = { leftUm: inches(3), rightUm: inches(1), topUm: inches(2), bottomUm: inches(2) }
    expect(fitPiece(aRequest({ margins }), aPiece({ widthUm: inches(12), isTurnable: false }))).toMatchObject({
      kind: 'smaller-margin',
      dimension: 'width',
      marginUm: inches(0.5),
      margins: { leftUm: inches(1.5), rightUm: inches(0.5), topUm: inches(2), bottomUm: inches(2) },
    })
  })

  it('narrows both ways when both are short', () => {
    expect(fitPiece(aRequest(), aPiece({ widthUm: inches(14), heightUm: inches(12), isTurnable: false }))).toMatchObject({
      kind: 'smaller-margin',
      dimension: 'both',
      marginUm: inches(2),
      margins: { leftUm: inches(2), topUm: inches(2.5) },
    })
  })

  it('takes a margin of nought, and no less', () => {
    const bare = aPiece({ widthUm: inches(10), heightUm: inches(7), isTurnable: false })
    expect(fitPiece(aRequest(), bare)).toMatchObject({ kind: 'smaller-margin', marginUm: 0 })
    expect(fitPiece(aRequest(), { ...bare, widthUm: inches(9) })).toMatchObject({
      kind: 'too-small',
      lackWidthUm: inches(1),
      lackHeightUm: 0,
    })
  })

  it('allows for shrinkage in the margin it offers', () => {
    const fit = fitPiece(
      aRequest({ shrinkPercent: 50 }),
      aPiece({ widthUm: inches(28), heightUm: inches(40), isTurnable: false }),
    )
    expect(fit).toMatchObject({ kind: 'smaller-margin', dimension: 'width', marginUm: inches(2) })
  })

  it('fits exactly at the margin it offered', () => {
    const piece = aPiece({ widthUm: inches(13.3), heightUm: inches(11.7), isTurnable: false })
    const fit = fitPiece(aRequest(), piece)
    if (fit.kind !== 'smaller-margin') throw new Error(fit.kind)
    expect(fitPiece(aRequest({ margins: fit.margins }), piece).kind).toBe('fits')
    expect(fitPiece(aRequest({ margins: marginsAllRound(inches(3)) }), piece).kind).not.toBe('fits')
  })
})
