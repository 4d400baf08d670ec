import { describe, expect, it } from 'vitest'
import { judgeClothContrast } from '#lib/cloth/contrast'

const lab = (L: number) => ({ L, a: 3, b: 14 })

describe('judgeClothContrast', () => {
  it('names the threads nearer than 15 in lightness, the faintest first', () => {
    // On cloth of 82: 70 is 12 apart, 96 is 14, 67 is exactly 15, 43.5 is 38.5.
    const threads = [
      { threadId: 'light', lab: lab(96) },
      { threadId: 'dark', lab: lab(43.5) },
      { threadId: 'near', lab: lab(70) },
      { threadId: 'edge', lab: lab(67) },
    ]
    const contrast = judgeClothContrast(lab(82), threads)
    expect(contrast).toEqual({
      kind: 'judged',
      faint: [
        { threadId: 'near', gap: 12 },
        { threadId: 'light', gap: 14 },
      ],
      notKnownIds: [],
      judgedCount: 4,
      least: 15,
    })
  })

  it('says what it cannot judge', () => {
    expect(judgeClothContrast(null, [{ threadId: 'a', lab: lab(50) }])).toEqual({ kind: 'cloth-not-known' })
    expect(judgeClothContrast(lab(82), [{ threadId: 'a', lab: null }])).toMatchObject({
      faint: [],
      notKnownIds: ['a'],
      judgedCount: 0,
    })
  })
})
