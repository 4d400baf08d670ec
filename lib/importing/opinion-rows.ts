import { ok, type Result } from '#lib/result'
import type { OpinionRow } from '#lib/thread/substitution-opinions'
import { type RowProblem, readTable, type TableRefused } from './read-table'
import { sniffSeparator } from './sniff-separator'

/** What a typed list puts between the two threads of a line. */
const arrows = /\s*(?:→|⇒|=>|->|=)\s*/u
/** Two threads by maker, line and code. */
const widest = 6

/**
 * Part a list of what stands for what into rows of cells: `Larkholm 0311 → Brindlequay 17` line by line, or a table with whatever mark
 * parts its columns. It needs no headers: a row of them names no threads and is told as one that does not read.
 */
export function opinionRows(text: string): Result<{ rows: OpinionRow[]; problems: RowProblem[] }, TableRefused> {
  const lines = text.split(/\r\n|\n|\r/)
  if (lines.some((line) => arrows.test(line))) {
    const rows = lines.map((line, at) => ({ rowNumber: at + 1, cells: line.split(arrows) }))
    return ok({ rows: rows.filter(({ cells }) => cells.some((cell) => cell.trim() !== '')), problems: [] })
  }
  const { separator } = sniffSeparator(text)
  // A header row of our own, so that the first row is read like the others.
  const headers = Array.from({ length: widest }, (_, at) => `c${at + 1}`).join(separator)
  const table = readTable(`${headers}\n${text}`, { separator, headerRowNumber: 1 })
  if (!table.ok) return table
  const ownNumber = <Row extends { rowNumber: number }>(row: Row): Row => ({ ...row, rowNumber: row.rowNumber - 1 })
  return ok({ rows: table.value.rows.map(ownNumber), problems: table.value.problems.map(ownNumber) })
}
