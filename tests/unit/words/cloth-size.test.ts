import { describe, expect, it } from 'vitest'
import { fitAfterSquaring } from '#lib/cloth/after-squaring'
import { fitPiece } from '#lib/cloth/fit'
import { marginsAllRound } from '#lib/cloth/margins'
import { areaWords, fitSaid, marginWords, roughLength, roughSize, squaringWords } from '#words/cloth-size'
import { aPiece, aRequest, inches } from '../cloth/cloth-pieces'

/** How 16 × 13 in goes on a piece that may not be turned. */
const said = (widthIn: number, heightIn: number) =>
  fitSaid(fitPiece(aRequest(), aPiece({ widthUm: inches(widthIn), heightUm: inches(heightIn), isTurnable: false })), 'in')

describe('how a piece takes a design, in full', () => {
  it.each([
    [18, 14, 'fits with 1 in to spare'],
    [16, 13, 'fits with nothing to spare'],
    [14, 13, 'does not fit as asked; fits if the margin left and right drops to 2 in'],
    [10, 13, 'does not fit as asked; fits only with no margin left and right'],
    [15, 12, 'does not fit as asked; fits if the margin all round drops to 2½ in'],
    [9, 13, 'too small: lacks 1 in of width even without a margin'],
    [9, 6.5, 'too small: lacks 1 in of width and 0.5 in of height even without a margin'],
  ])('on %d × %d in: %s', (widthIn, heightIn, words) => expect(said(widthIn, heightIn)).toBe(words))
})

describe('what squaring makes of it', () => {
  const squared = (widthIn: number, heightIn: number, isSquared = false) =>
    squaringWords(
      fitAfterSquaring(
        aRequest(),
        aPiece({ widthUm: inches(widthIn), heightUm: inches(heightIn), isSquared, isTurnable: false }),
      ),
      'in',
    )

  it.each([
    [17, 14, 'it still fits.'],
    [16.5, 13.5, 'it still fits, with nothing to spare.'],
    [16, 14, 'it fits only if the margin left and right drops to 2¾ in.'],
    [10, 14, 'it is too small: lacks 0.5 in of width even without a margin.'],
  ])('%d × %d in: %s', (widthIn, heightIn, end) =>
    expect(squared(widthIn, heightIn)).toBe(`Square it first: once it has lost the usual ¼ in a side ${end}`),
  )

  it('is not asked of a squared piece', () => expect(squared(17, 14, true)).toBeNull())
})

describe('measures that are not cut to', () => {
  it('have two decimals and no fractions', () => {
    expect(roughLength((128 / 15.25 - 8) * 25_400, 'in')).toBe('0.39 in')
    expect(roughSize({ widthUm: 203_200, heightUm: (128 / 15.25) * 25_400 }, 'in')).toBe('8 × 8.39 in')
    expect(roughSize({ widthUm: 203_200, heightUm: 254_000 }, 'cm')).toBe('20.32 × 25.4 cm')
    expect(areaWords(26 * 25_400 ** 2, 'in')).toBe('26 sq in')
  })
})

describe('four margins', () => {
  it.each([
    [marginsAllRound(inches(3)), '3 in all round'],
    [{ ...marginsAllRound(inches(2)), topUm: inches(3), bottomUm: inches(3) }, '2 in at the sides, 3 in above and below'],
    [{ ...marginsAllRound(inches(2)), topUm: inches(3) }, '2 in left, 2 in right, 3 in above, 2 in below'],
  ])('%o are %s', (margins, words) => expect(marginWords(margins, 'in')).toBe(words))
})
