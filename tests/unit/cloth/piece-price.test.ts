import { describe, expect, it } from 'vitest'
import { type PricedPiece, sharePieces } from '#lib/cloth/piece-price'
import { UM_PER_INCH } from '#lib/quantity/cloth-length'

const piece = (id: string, width: number, height: number, over: Partial<PricedPiece> = {}): PricedPiece => ({
  ...{ id, parentId: null, widthUm: width * UM_PER_INCH, heightUm: height * UM_PER_INCH, priceMinor: null, isGone: true },
  ...over,
})
const sqIn = (um2: number) => um2 / UM_PER_INCH ** 2

describe('the price of a piece of cloth', () => {
  it('is its own, for as much of it as did not come back', () => {
    // A fat quarter, 18 × 27 = 486 sq in at 14.50, of which 18 × 7 = 126 came back (scenario A8): 360 were used.
    const share = sharePieces([piece('quarter', 18, 27, { priceMinor: 1_450 }), piece('rest', 18, 7, { parentId: 'quarter' })])
    const { priceMinor, usedUm2, ofUm2, isShare } = share('quarter')
    expect([priceMinor, sqIn(usedUm2), sqIn(ofUm2), isShare]).toEqual([1_450, 360, 486, false])
  })

  it('is a share, by area, of the piece it was cut from', () => {
    const pieces = [
      piece('quarter', 18, 27, { priceMinor: 1_450 }),
      piece('rest', 18, 7, { parentId: 'quarter' }),
      piece('end', 6, 7, { parentId: 'rest' }),
    ]
    const share = sharePieces(pieces)
    // 1,450 × 126 / 486, and a third of that.
    expect(share('rest')).toMatchObject({ priceMinor: (1_450 * 126) / 486, isShare: true })
    expect(sqIn(share('rest').usedUm2)).toBe(126 - 42)
    expect(share('end').priceMinor).toBeCloseTo((1_450 * 42) / 486, 9)
  })

  it('goes by what there was before the cut where the piece became smaller', () => {
    // Of 18 × 27 only 18 × 15 lies there still, and 18 × 12 was cut off.
    const share = sharePieces([
      piece('quarter', 18, 15, { priceMinor: 1_350, isGone: false }),
      piece('cut', 18, 12, { parentId: 'quarter' }),
    ])
    expect(share('cut').priceMinor).toBeCloseTo((1_350 * 12) / 27, 9)
  })

  it('is not known where nobody said', () => {
    expect(sharePieces([piece('one', 10, 10)])('one').priceMinor).toBeNull()
    expect(sharePieces([piece('one', 10, 10, { parentId: 'lost' })])('one').priceMinor).toBeNull()
    expect(() => sharePieces([])('one')).toThrow(RangeError)
  })
})
