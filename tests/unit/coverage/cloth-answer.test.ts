import { describe, expect, it } from 'vitest'
import type { ClothPiece } from '#lib/cloth/cloth-piece'
import { clothAnswer, overOn } from '#lib/coverage/cloth-answer'

const inch = 25_400
const settings = {
  margins: { leftUm: 3 * inch, rightUm: 3 * inch, topUm: 3 * inch, bottomUm: 3 * inch },
  shrinkPercent: 0,
  roundingUm: inch / 2,
}
const count = (threads: number) => ({ threads, perUm: inch })
const aPiece = (id: string, change: Partial<ClothPiece> = {}): ClothPiece => ({
  id,
  ownerId: 'own stash',
  label: null,
  name: 'Harrowmere linen',
  colourName: null,
  lab: null,
  weave: 'single',
  ends: count(28),
  picks: count(28),
  widthUm: 18 * inch,
  heightUm: 27 * inch,
  isSquared: true,
  sizeCertainty: 'measured',
  isTurnable: true,
  dyeing: null,
  washState: 'unknown',
  isCountStale: false,
  isReserved: false,
  isOffcut: false,
  homePlaceId: null,
  currentPlaceId: null,
  ...change,
})
const advised = { count: count(28), over: 2 as const, weave: 'single' as const, insists: false, name: null }
const rookHill = { id: 'rooks', size: { kind: 'stitches' as const, width: 140, height: 98 }, advised }

describe('the cloth answer of a design', () => {
  // Scenario A1 of the trade notes: 16 × 13 in to cut; 12.75 × 17.5 in takes it at a margin of 2.875 in.
  it('chooses a piece, or says at what margin one would do, and what to buy', () => {
    const small = aPiece('small', { widthUm: 12.75 * inch, heightUm: 17.5 * inch })
    expect(clothAnswer(rookHill, [small, aPiece('quarter')], settings)).toMatchObject({
      kind: 'answer',
      choice: { best: { piece: { id: 'quarter' } }, toBuy: null },
    })
    expect(clothAnswer(rookHill, [small], settings)).toMatchObject({
      choice: {
        best: null,
        ranked: [{ fit: { kind: 'smaller-margin', marginUm: 2.875 * inch } }],
        toBuy: { widthUm: 16 * inch, heightUm: 13 * inch },
      },
    })
  })

  it('lists every kind on hand, worked over what suits its weave, the advised first', () => {
    const pieces = [
      aPiece('b', { weave: 'block', ends: count(14), picks: count(14) }),
      aPiece('l'),
      aPiece('m', { isReserved: true }),
    ]
    const answer = clothAnswer(rookHill, pieces, settings)
    expect(answer).toMatchObject({
      kinds: [
        { kind: 'single 28', over: 2, isAdvised: true, pieceCount: 1, fit: { kind: 'fits' } },
        { kind: 'block 14', over: 1, isAdvised: false, fit: { kind: 'fits' } },
      ],
    })
    const insisting = { ...rookHill, advised: { ...advised, insists: true } }
    expect(clothAnswer(insisting, pieces, settings)).toMatchObject({ kinds: [{ kind: 'single 28' }] })
  })

  it('chooses among all pieces when the chart advises none', () => {
    const pieces = [aPiece('b', { weave: 'block', ends: count(18), picks: count(18) }), aPiece('l')]
    const answer = clothAnswer({ ...rookHill, advised: null }, pieces, settings)
    // On the block cloth it comes out smaller and would leave more of the same size of piece.
    expect(answer).toMatchObject({ choice: { best: { piece: { id: 'l' } }, toBuy: null } })
    const offcut = clothAnswer(
      { ...rookHill, advised: null },
      [{ ...(pieces[0] as ClothPiece), isOffcut: true }, aPiece('l')],
      settings,
    )
    expect(offcut).toMatchObject({ choice: { best: { piece: { id: 'b' } } } })
  })

  it('cannot say without a size', () => {
    expect(clothAnswer({ ...rookHill, size: { kind: 'unknown' } }, [], settings)).toEqual({ kind: 'unknown-size' })
  })

  it('works a weave over what the chart says of that weave, else one block or two threads', () => {
    expect(overOn('single', { ...advised, over: 1 })).toBe(1)
    expect(overOn('block', advised)).toBe(1)
    expect(overOn('block', { ...advised, weave: null })).toBe(2)
    expect(overOn('single', null)).toBe(2)
  })
})
