import { describe, expect, it } from 'vitest'
import { marginsAllRound } from '#lib/cloth/margins'
import { oneMotif, type SizeQuestion } from '#lib/cloth/motifs'
import { rankPieces, sizeOnEveryCount } from '#lib/cloth/on-every-count'
import { aPiece, inches, toTheInch } from './cloth-pieces'

/** 140 × 98: 10 × 7 in on 28 over two, 16 × 13 to cut with 3 in all round. */
const question: SizeQuestion = {
  width: 140,
  height: 98,
  uncertaintyUm: 0,
  motifs: oneMotif,
  margins: marginsAllRound(inches(3)),
  shrinkPercent: 0,
  roundingUm: inches(0.5),
}
const overFor = (weave: 'block' | 'single') => (weave === 'block' ? 1 : 2)
const aida = { weave: 'block', ends: toTheInch(14), picks: toTheInch(14) } as const
const fine = { ends: toTheInch(40), picks: toTheInch(40) }

describe('sizeOnEveryCount', () => {
  it('gives every count its best piece: what fits first, and among equal ones the coarser first', () => {
    const counts = sizeOnEveryCount(
      question,
      [
        aPiece({ id: 'quarter' }),
        aPiece({ id: 'offcut', widthUm: inches(17), heightUm: inches(14), isOffcut: true }),
        aPiece({ id: 'aida', ...aida }),
        aPiece({ id: 'small', ...fine, widthUm: inches(6), heightUm: inches(6) }),
      ],
      overFor,
    )
    expect(counts.map(({ kind, over, piece, fit }) => [kind, over, piece.id, fit.kind])).toEqual([
      ['block 14', 1, 'aida', 'fits'],
      ['single 28', 2, 'offcut', 'fits'],
      // 140/20 = 7 in on 6 in of cloth: it lacks an inch.
      ['single 40', 2, 'small', 'too-small'],
    ])
    expect(counts[1]?.ranked.map(({ piece }) => piece.id)).toEqual(['offcut', 'quarter'])
  })

  it('offers no reserved piece, but still says how a count comes out that has no other', () => {
    const counts = sizeOnEveryCount(
      question,
      [aPiece({ id: 'kept', isReserved: true }), aPiece({ id: 'near', widthUm: inches(15), heightUm: inches(13) })],
      overFor,
    )
    expect(counts).toHaveLength(1)
    expect(counts[0]).toMatchObject({ pieceCount: 2, reservedCount: 1, piece: { id: 'near' }, fit: { kind: 'smaller-margin' } })
    const [onlyKept] = sizeOnEveryCount(question, [aPiece({ id: 'kept', isReserved: true })], overFor)
    expect(onlyKept).toMatchObject({ reservedCount: 1, ranked: [], fit: { kind: 'fits' } })
  })
})

describe('rankPieces', () => {
  it('weighs block cloth over one against single threads over two', () => {
    // On 14 blocks and on 28 threads alike it is 16 × 13 in; 17 × 14 leaves less of the Aida than 18 × 27 of the linen.
    const ranked = rankPieces(
      question,
      [aPiece({ id: 'linen' }), aPiece({ id: 'aida', ...aida, widthUm: inches(17), heightUm: inches(14) })],
      overFor,
    )
    expect(ranked.map(({ piece }) => piece.id)).toEqual(['aida', 'linen'])
    expect(ranked[0]?.leftAreaUm2).toBeCloseTo((17 * 14 - 16 * 13) * 25_400 ** 2, 0)
  })
})
