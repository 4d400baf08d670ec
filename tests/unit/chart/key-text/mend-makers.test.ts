import { describe, expect, it } from 'vitest'
import { withMakersMended } from '#lib/chart/key-text/mend-makers'
import { vocabularyOf } from '#lib/chart/key-text/vocabulary'

const known = vocabularyOf(
  [],
  [
    { maker: 'Port Ellery', threadLine: 'Stranded Cotton' },
    { maker: 'Larkholm', threadLine: 'Silk' },
  ],
)
const told = (text: string, certainty = 0.95) => {
  const [line] = withMakersMended([{ page: 0, cells: [{ text, certainty, box: null }] }], known)
  return [line?.cells[0]?.text, line?.cells[0]?.certainty]
}

describe('a maker read from a picture', () => {
  it('is called as it is known, and doubted where letters of it were wrong', () => {
    expect(told('Larkhohm no.')).toEqual(['Larkholm no.', 0.78])
    expect(told('Shades of Port Eilery')).toEqual(['Shades of Port Ellery', 0.78])
    // Only the space was lost.
    expect(told('PortEllery')).toEqual(['Port Ellery', 0.95])
  })

  it('is left where it is right, is another word, or was typed', () => {
    expect(told('LARKHOLM')).toEqual(['LARKHOLM', 0.95])
    expect(told('Larkspur')).toEqual(['Larkspur', 0.95])
    expect(told('Larkhohm', 1)).toEqual(['Larkhohm', 1])
  })
})
