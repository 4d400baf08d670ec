import { describe, expect, it } from 'vitest'
import type { PlacedWord } from '#lib/chart/page-text/page-text'
import { blankGrey, type Grey } from '#lib/reader/picture/grey'
import { secondLook } from '#lib/reader/second-look'
import type { Straight } from '#lib/reader/straighten'

const capPx = 20
const word = (text: string, left: number, top: number, certainty = 0.95): PlacedWord => ({
  text,
  certainty,
  box: { left, right: left + text.length * 14, top, bottom: top + capPx },
})
/** A page with ink for each word and for `more` places; each sign a block twelve wide. */
function aPage(words: readonly PlacedWord[], more: readonly { left: number; top: number }[] = []): Straight {
  const grey: Grey = blankGrey(600, 400)
  const sign = (left: number, top: number) => {
    for (let y = top; y < top + capPx; y++) grey.data.fill(30, y * 600 + left, y * 600 + left + 12)
  }
  for (const { text, box } of words) for (const at of [...text].keys()) sign(box.left + at * 14, box.top)
  for (const { left, top } of more) sign(left, top)
  return { grey, capPx, inkShade: 128, rules: { vertical: [], horizontal: [] }, blobCount: 0 }
}

describe('a second look', () => {
  it('is taken at what was not sure, and raises what it says as well', async () => {
    const words = [word('Pine', 20, 20), word('Kelp', 20, 80, 0.6)]
    const looked: number[] = []
    const read = await secondLook(words, aPage(words), async (picture) => {
      looked.push(picture.height)
      return [word('Kelp', 10, 10, 0.9)]
    })
    expect(looked).toHaveLength(1)
    // 1 − 0.4 × (1 − 0.9 × 0.7)
    expect(read.map(({ text, certainty }) => [text, Number(certainty.toFixed(3))])).toEqual([
      ['Pine', 0.95],
      ['Kelp', 0.852],
    ])
  })

  it('that says something else leaves neither sure', async () => {
    const words = [word('Kelp', 20, 80, 0.6)]
    const [surer] = await secondLook(words, aPage(words), async () => [word('Help', 10, 10, 0.9)])
    expect(surer).toMatchObject({ text: 'Help', certainty: 0.72 })
    const [former] = await secondLook(words, aPage(words), async () => [word('Help', 10, 10, 0.3)])
    expect(former).toMatchObject({ text: 'Kelp', certainty: 0.6 })
  })

  it('finds what stands on a line and was left out, in its place on the page', async () => {
    const words = [word('Pine', 20, 20)]
    const page = aPage(words, [
      { left: 200, top: 20 },
      { left: 214, top: 20 },
      // On no line that was read: a stain.
      { left: 200, top: 300 },
      { left: 214, top: 300 },
    ])
    const read = await secondLook(words, page, async (picture) => {
      // The cut has its ink where the run is: 7 across and 8 down within, after a margin of 10.
      expect(picture.data[(10 + 8 + 5) * picture.width + 10 + 7 + 5]).toBe(0)
      return [{ ...word('17', 17, 18, 0.95) }]
    })
    expect(read).toHaveLength(2)
    expect(read[1]).toMatchObject({ text: '17', certainty: 0.84, box: { left: 200, top: 20 } })
  })

  it('looks for figures alone in a column of figures', async () => {
    const words = [...['120', '344', '965', '871'].map((text, at) => word(text, 100, 20 + at * 40)), word('S6l', 100, 180, 0.5)]
    const asked: (string | null)[] = []
    await secondLook(words, aPage(words), async (_picture, signs) => {
      asked.push(signs)
      return []
    })
    expect(asked).toEqual(['0123456789'])
  })
})
