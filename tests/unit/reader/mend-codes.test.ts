import { describe, expect, it } from 'vitest'
import type { PlacedWord } from '#lib/chart/page-text/page-text'
import { mendCodes } from '#lib/reader/mend-codes'

const column = (texts: readonly string[]): PlacedWord[] =>
  texts.map((text, row) => ({ text, certainty: 0.95, box: { left: 100, right: 160, top: row * 60, bottom: row * 60 + 30 } }))
const told = (texts: readonly string[]) => mendCodes(column(texts), 30).map(({ text, certainty }) => [text, certainty])

describe('codes of one column', () => {
  it('have figures where all others have them, and are doubted', () => {
    expect(told(['W299', 'W040', 'W222', 'Wi87', 'W208', 'Wo089', 'w145'])).toEqual([
      ['W299', 0.95],
      ['W040', 0.95],
      ['W222', 0.95],
      ['W187', 0.75],
      ['W208', 0.95],
      ['W089', 0.75],
      ['W145', 0.75],
    ])
  })

  it('are left where they are of several shapes, or cannot be of the others', () => {
    expect(told(['W299', '1408', 'L12', 'Wi87']).map(([text]) => text)).toEqual(['W299', '1408', 'L12', 'Wi87'])
    expect(told(['W299', 'W040', 'W222', 'K12'])[3]).toEqual(['K12', 0.95])
  })

  it('that end with an 8 are doubted where others end with a letter', () => {
    expect(told(['79A', '325A', '1408', '271'])).toEqual([
      ['79A', 0.95],
      ['325A', 0.95],
      ['1408', 0.75],
      ['271', 0.95],
    ])
  })
})
