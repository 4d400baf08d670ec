import { describe, expect, it } from 'vitest'
import { fitPiece } from '#lib/cloth/fit'
import { aPiece, aRequest, inches } from '#tests/unit/cloth/cloth-pieces'
import { choiceSentence } from '#words/cloth'
import { bleedTestWords, careWords, notTurnedWords, shrinkageWords } from '#words/cloth-care'

describe('words for the care of cloth', () => {
  it('says why a piece is not turned, where anybody said', () => {
    expect(notTurnedWords('dye')).toBe('not turned: the dye runs one way')
    expect(notTurnedWords(null)).toBe('not to be turned')
  })

  it('says what is allowed for shrinking, and why', () => {
    expect(shrinkageWords({ washState: 'washed', washedOn: '2026-09-08' }, 3)).toBe(
      'Washed Tue 8 Sep 2026: it has shrunk, so nothing is added to a cut for it.',
    )
    expect(shrinkageWords({ washState: 'never', washedOn: null }, 3)).toContain('nothing is added')
    expect(shrinkageWords({ washState: 'new', washedOn: null }, 3)).toContain('3 % is allowed')
    expect(shrinkageWords({ washState: 'unknown', washedOn: null }, 0)).toContain('allow nothing')
  })

  it('never lets a pass stand as a promise', () => {
    expect(bleedTestWords('passed', '2026-09-08')).toBe('no dye ran, Tue 8 Sep 2026')
    expect(careWords({ kind: 'passed', because: 'red' }).words).toContain('no guarantee')
    expect(careWords({ kind: 'test-first', because: 'dark' }).words).toMatch(/^It is dark, .*no guarantee/)
  })

  it('says of a fit that its count was taken before the wash', () => {
    const piece = aPiece({ label: 'L-12', isCountStale: true, widthUm: inches(27), heightUm: inches(27) })
    const fit = fitPiece(aRequest(), piece)
    if (fit.kind !== 'fits') throw new Error(fit.kind)
    const best = { piece, fit, leftAreaUm2: 0 }
    expect(choiceSentence({ best, ranked: [best], toBuy: null }, 'in')).toBe('L-12 fits, by its count before it was washed')
    const fresh = { ...best, piece: { ...piece, isCountStale: false } }
    expect(choiceSentence({ best: fresh, ranked: [fresh], toBuy: null }, 'in')).toBe('L-12 fits')
  })
})
