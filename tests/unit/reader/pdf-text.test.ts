import { describe, expect, it } from 'vitest'
import { pageFromText, type TextRun } from '#lib/reader/pdf-text'

const [width, height] = [600, 800]
/** A PDF's own heights are counted from the foot of the page; shown, from its top. */
const upright: TextRun['transform'] = [1, 0, 0, -1, 0, height]

const run = (text: string, transform: TextRun['transform'], runWidth = text.length * 5): TextRun => ({
  text,
  transform,
  width: runWidth,
})

describe('runs of text as words in their places', () => {
  it('stand from the upper left corner, as high as their type', () => {
    const page = pageFromText([run('0311 Pale Pine', [10, 0, 0, 10, 50, 700])], { width, height, transform: upright })
    expect(page).toMatchObject({ widthPt: 600, heightPt: 800 })
    const [word] = page.words
    expect(word).toMatchObject({ text: '0311 Pale Pine', certainty: 1 })
    expect(word?.box.left).toBe(50)
    expect(word?.box.right).toBe(120)
    // The baseline is 100 points below the top.
    expect(word?.box.top).toBeLessThan(100)
    expect(word?.box.bottom).toBeGreaterThan(100)
    expect((word?.box.bottom as number) - (word?.box.top as number)).toBeCloseTo(10, 6)
  })

  it('are turned upright where most run up the page, and a note across them is left out', () => {
    // Set a quarter turn to the left: along the page's height, from its foot.
    const sideways = [
      run('0311 Pale Pine', [0, 10, -10, 0, 100, 60]),
      run('0742 Winter Rook', [0, 10, -10, 0, 120, 60]),
      run('note', [10, 0, 0, 10, 300, 300]),
    ]
    const page = pageFromText(sideways, { width, height, transform: upright })
    expect(page).toMatchObject({ widthPt: 800, heightPt: 600 })
    expect(page.words.map(({ text }) => text)).toEqual(['0311 Pale Pine', '0742 Winter Rook'])
    const [first, second] = page.words
    expect(first?.box.left).toBeCloseTo(60, 6)
    expect(second?.box.left).toBeCloseTo(60, 6)
    expect((second?.box.top as number) - (first?.box.top as number)).toBeCloseTo(20, 6)
  })

  it('leave out what has no size or no place', () => {
    const odd = [run('a', [0, 0, 0, 0, 1, 1]), run('b', [10, 0, 0, 10, Number.NaN, 1]), run('', [10, 0, 0, 10, 1, 1])]
    expect(pageFromText(odd, { width, height, transform: upright }).words).toEqual([])
  })
})
