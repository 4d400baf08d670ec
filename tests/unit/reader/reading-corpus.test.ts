import { describe, expect, it } from 'vitest'
import { type CorpusKind, holdAgainstTruth } from '#tests/corpus/hold'
import { overall, scoreTable, sumScores } from '#tests/corpus/score'

/** Read some documents of the held-out half; `npm run bench reading` reads them all. */
async function hold(kind: CorpusKind, which: readonly number[], leastRight: number): Promise<void> {
  const held = await holdAgainstTruth(kind, 'held-out', which)
  expect(held.flatMap(({ refusal }) => refusal ?? [])).toEqual([])
  const byField = sumScores(held.map(({ score }) => score))
  const { shareRight, shareConfidentlyWrong } = overall(byField)
  expect(shareRight, scoreTable(byField)).toBeGreaterThanOrEqual(leastRight)
  expect(shareConfidentlyWrong, scoreTable(byField)).toBeLessThanOrEqual(0.01)
}

describe('reading what the reader was not written by', () => {
  // One of each layout but the scanned one, and two more.
  it('reads PDFs', () => hold('pdfs', [0, 1, 2, 3, 5, 6, 7, 8, 9, 10, 12, 17], 0.97), 120_000)

  // An easy one, an ordinary one and a hard one.
  it('reads photographs', () => hold('photos', [0, 6, 13], 0.9), 120_000)
})
