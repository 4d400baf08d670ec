import { expect, it } from 'vitest'
import { readText } from '#tests/corpus/read'
import { scoreReading } from '#tests/corpus/score'
import { overall, scoreTable, sumScores } from '#tests/corpus/score-table'
import { makeTexts } from '#tests/corpus/texts'

// What is held to is the issue of reading keys: 97 % of the fields of key text that the reader was not written by, and no more than 1 % wrong
// and yet as sure.
it('reads the held-out key texts', () => {
  const byField = sumScores(makeTexts('held-out').map((made) => scoreReading(made.designs, readText(made))))
  const { asked, shareRight, shareConfidentlyWrong } = overall(byField)
  expect(asked).toBeGreaterThan(8_000)
  expect(shareRight, scoreTable(byField)).toBeGreaterThanOrEqual(0.97)
  expect(shareConfidentlyWrong, scoreTable(byField)).toBeLessThanOrEqual(0.01)
})
