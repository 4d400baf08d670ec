import { emptyTally, type Score, type ScoredField, scoredFields, type Tally } from './score'

/** Add up the scores of many documents. */
export function sumScores(scores: readonly Score[]): Map<ScoredField, Tally> {
  const sum = new Map<ScoredField, Tally>(scoredFields.map((field) => [field, emptyTally()]))
  for (const { byField } of scores) {
    for (const [field, tally] of byField) {
      const total = sum.get(field) as Tally
      for (const key of Object.keys(total) as (keyof Tally)[]) total[key] += tally[key]
    }
  }
  return sum
}

export const askedOf = ({ right, wrong, missing, extra }: Tally): number => right + wrong + missing + extra

/**
 * The whole of it: the share of fields right among all that stand in the documents or were read, and the share of them that were read wrong and
 * yet as sure. A line is counted by its fields. Drawn symbols, which are no text, have no part in the first share unless `withDrawn`; what was
 * made of them and said to be sure counts in the second.
 */
export function overall(
  byField: Map<ScoredField, Tally>,
  withDrawn = false,
): { right: number; asked: number; confidentlyWrong: number; shareRight: number; shareConfidentlyWrong: number } {
  let [right, asked, confidentlyWrong] = [0, 0, 0]
  for (const [field, tally] of byField) {
    if (field === 'line') continue
    confidentlyWrong += tally.confidentlyWrong
    if (field === 'drawn symbol' && !withDrawn) continue
    right += tally.right
    asked += askedOf(tally)
  }
  return {
    right,
    asked,
    confidentlyWrong,
    shareRight: asked === 0 ? 1 : right / asked,
    shareConfidentlyWrong: asked === 0 ? 0 : confidentlyWrong / asked,
  }
}

const percent = (share: number): string => `${(100 * share).toFixed(2)} %`

/** The table by field, for the terminal. */
export function scoreTable(byField: Map<ScoredField, Tally>): string {
  const rows = [['field', 'right', 'wrong', 'missing', 'extra', 'share right', 'sure and wrong']]
  for (const [field, tally] of byField) {
    if (askedOf(tally) === 0) continue
    rows.push([
      field,
      ...[tally.right, tally.wrong, tally.missing, tally.extra].map(String),
      percent(tally.right / askedOf(tally)),
      String(tally.confidentlyWrong),
    ])
  }
  for (const withDrawn of [false, true]) {
    const { right, asked, shareRight, shareConfidentlyWrong, confidentlyWrong } = overall(byField, withDrawn)
    rows.push([
      withDrawn ? 'all with drawn' : 'all',
      String(right),
      '',
      '',
      `of ${asked}`,
      percent(shareRight),
      `${confidentlyWrong} (${percent(shareConfidentlyWrong)})`,
    ])
  }
  const widths = (rows[0] as string[]).map((_, column) => Math.max(...rows.map((row) => (row[column] as string).length)))
  return rows
    .map((row) =>
      row
        .map((cell, column) => (column === 0 ? cell.padEnd(widths[0] as number) : cell.padStart(widths[column] as number)))
        .join('  '),
    )
    .join('\n')
}
