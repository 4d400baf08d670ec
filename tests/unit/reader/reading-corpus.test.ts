import { describe, expect, it } from 'vitest'
import { type CorpusKind, holdAgainstTruth } from '#tests/corpus/hold'
import { overall, scoreTable, sumScores } from '#tests/corpus/score-table'

/** Read some documents of the held-out half; `npm run bench reading` reads them all. */
async function hold(kind: CorpusKind, which: readonly number[], leastRight: number, mostSureAndWrong: number): Promise<void> {
  const held = await holdAgainstTruth(kind, 'held-out', which)
  expect(held.flatMap(({ refusal }) => refusal ?? [])).toEqual([])
  const byField = sumScores(held.map(({ score }) => score))
  const { shareRight, shareConfidentlyWrong } = overall(byField)
  expect(shareRight, scoreTable(byField)).toBeGreaterThanOrEqual(leastRight)
  expect(shareConfidentlyWrong, scoreTable(byField)).toBeLessThanOrEqual(mostSureAndWrong)
}

/**
 * The goal on the whole held-out half: PDFs 97 % of fields right, photographs 90 %, and at most 1 % sure and wrong. It stands at 97.3 % (0.7 %
 * sure and wrong) for PDFs, and at 92.6 % (0.5 % sure and wrong) for photographs, most of what is left being makers nobody knows, and titles.
 * The few read here are held to what is reached on them; they are easier than the whole half.
 */
describe('reading what the reader was not written by', () => {
  it('reads PDFs', () => hold('pdfs', [0, 1, 2, 3, 5, 8], 0.985, 0.01), 120_000)

  it('reads an ordinary photograph', () => hold('photos', [6], 0.97, 0.01), 120_000)
})
