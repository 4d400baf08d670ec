import { describe, expect, it } from 'vitest'
import type { PlacedWord } from '#lib/chart/page-text/page-text'
import { mendPoints } from '#lib/reader/mend-points'

const capPx = 30
/** Words of figures below one another, as wide as their figures, 20 pixels each. */
const column = (texts: readonly string[]): PlacedWord[] =>
  texts.map((text, row) => ({ text, certainty: 0.95, box: { left: 100, right: 150, top: row * 60, bottom: row * 60 + capPx } }))
const ink = (left: number, right: number, top: number, bottom: number) => ({ left, right, top, bottom, pixels: 40 })

describe('decimal points', () => {
  it('are put where their ink stands between two figures', () => {
    const [word] = column(['15'])
    const blobs = [ink(100, 120, 0, 30), ink(124, 129, 25, 30), ink(132, 150, 0, 30)]
    expect(mendPoints([word as PlacedWord], blobs, capPx)[0]?.text).toBe('1.5')
    expect(mendPoints([{ ...(word as PlacedWord), text: '145' }], blobs, capPx)[0]?.text).toBe('1.5')
  })

  it('are found before a unit, and where they are paler than their figures', () => {
    const word: PlacedWord = { text: '15m', certainty: 0.95, box: { left: 100, right: 175, top: 0, bottom: 30 } }
    const tall = [ink(100, 120, 0, 30), ink(132, 150, 0, 30), ink(154, 174, 8, 30)]
    const dot = ink(124, 129, 25, 30)
    const dark = mendPoints([word], [...tall, dot], capPx)[0]
    expect(dark?.text).toBe('1.5m')
    // By ink alone it is to be looked at.
    expect(dark?.certainty).toBeLessThan(0.8)
    expect(mendPoints([word], tall, capPx, [dot])[0]?.text).toBe('1.5m')
    expect(mendPoints([word], tall, capPx)[0]).toMatchObject({ text: '15m', certainty: 0.78 })
  })

  it('are not made of a speck above the line, or where three figures follow', () => {
    const [word] = column(['15'])
    expect(
      mendPoints([word as PlacedWord], [ink(100, 120, 0, 30), ink(124, 129, 5, 10), ink(132, 150, 0, 30)], capPx)[0]?.text,
    ).toBe('15')
    const thousands = { ...(word as PlacedWord), text: '1390' }
    const blobs = [ink(100, 108, 0, 30), ink(110, 114, 26, 32), ...[116, 128, 140].map((left) => ink(left, left + 9, 0, 30))]
    expect(mendPoints([thousands], blobs, capPx)[0]?.text).toBe('1390')
  })

  it('that all others of a column have are missed: the figure gets it, and is doubted', () => {
    const mended = mendPoints(column(['1.5', '2.0', '0.8', '15', '1:9']), [], capPx)
    expect(mended.map(({ text }) => text)).toEqual(['1.5', '2.0', '0.8', '1.5', '1.9'])
    expect(mended[3]?.certainty).toBeLessThan(0.8)
    expect(mended[4]?.certainty).toBeLessThan(0.8)
    expect(mended[0]?.certainty).toBe(0.95)
  })
})
