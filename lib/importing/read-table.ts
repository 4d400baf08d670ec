import Papa from 'papaparse'
import { ok, type Result, refused } from '#lib/result'
import { countKnownHeaders } from './header-words'
import { type RawRecord, splitRecords } from './split-records'

export type TableRow = {
  /** The row's number as a spreadsheet shows it: the first of the file is 1, title lines and blank rows count. */
  rowNumber: number
  /** As many cells as there are headers, as written. */
  cells: string[]
}

export type RowProblem =
  | { kind: 'unclosed-quote'; rowNumber: number; raw: string }
  | { kind: 'stray-quote'; rowNumber: number; raw: string }
  /** Something stands beyond the last header, as when a comma inside a text parted it in two. */
  | { kind: 'more-cells-than-headers'; rowNumber: number; raw: string; cells: number; headers: number }
  | { kind: 'cell-too-long'; rowNumber: number; raw: string; letters: number; mostLetters: number }

export type Table = {
  headers: string[]
  headerRowNumber: number
  rows: TableRow[]
  /** Rows that could not be read; the others are kept. */
  problems: RowProblem[]
}

export type TableRefused =
  | { kind: 'no-rows' }
  | { kind: 'too-many-rows'; mostRows: number }
  | { kind: 'header-row-broken'; rowNumber: number; raw: string }
  | { kind: 'too-many-columns'; columns: number; mostColumns: number }

const mostRows = 200_000
const mostColumns = 500
const mostLetters = 10_000
const rowsSearchedForHeaders = 25
/** What is kept of a row that could not be read, to show it. */
const rawShown = 200

type ReadRow = { rowNumber: number; cells: string[]; raw: RawRecord }

/**
 * Part a text into headers and rows.
 *
 * Blank rows are passed over, short rows filled up with blank cells, headers that repeat numbered (`Colour`, `Colour (2)`) and blank ones
 * named after their place (`Column 3`). Title lines above the headers are passed over too, unless `headerRowNumber` says which row they are.
 */
export function readTable(
  text: string,
  { separator, headerRowNumber }: { separator: string; headerRowNumber?: number },
): Result<Table, TableRefused> {
  const records: RawRecord[] = []
  for (const record of splitRecords(text.replace(/^sep=[,;|\t](\r\n|\n|\r)/i, '$1'), separator, mostLetters)) {
    if (isBlank(record.text, separator)) continue
    records.push(record)
    if (records.length > mostRows + rowsSearchedForHeaders) return refused({ kind: 'too-many-rows', mostRows })
  }
  const rows = readCells(records, separator)
  const header =
    headerRowNumber === undefined ? findHeaderRow(rows) : (rows.find((row) => row.rowNumber === headerRowNumber) ?? null)
  if (header === null) return refused({ kind: 'no-rows' })
  if (header.raw.fault !== null)
    return refused({ kind: 'header-row-broken', rowNumber: header.rowNumber, raw: shown(header.raw) })

  const below = rows.filter((row) => row.rowNumber > header.rowNumber)
  if (below.length === 0) return refused({ kind: 'no-rows' })
  if (below.length > mostRows) return refused({ kind: 'too-many-rows', mostRows })
  const headers = nameHeaders(header.cells, below)
  if (headers.length > mostColumns) return refused({ kind: 'too-many-columns', columns: headers.length, mostColumns })

  const table: Table = { headers, headerRowNumber: header.rowNumber, rows: [], problems: [] }
  for (const row of below) {
    const problem = problemOf(row, headers.length)
    if (problem) table.problems.push(problem)
    else table.rows.push({ rowNumber: row.rowNumber, cells: headers.map((_, index) => row.cells[index] ?? '') })
  }
  return ok(table)
}

function isBlank(raw: string, separator: string): boolean {
  for (const letter of raw) if (letter !== separator && letter.trim() !== '') return false
  return true
}

/** Every record's quoting is known to be sound or at fault by now, so that one record handed to the parser is one row back. */
function readCells(records: RawRecord[], separator: string): ReadRow[] {
  const sound = records.filter((record) => record.fault === null)
  const parsed = Papa.parse<string[]>(sound.map((record) => record.text).join('\n'), {
    delimiter: separator,
    newline: '\n',
    quoteChar: '"',
  }).data
  let next = 0
  return records.map((raw) => ({ rowNumber: raw.rowNumber, cells: raw.fault === null ? (parsed[next++] ?? []) : [], raw }))
}

const filled = (row: ReadRow): string[] => row.cells.filter((cell) => cell.trim() !== '')

/**
 * The row of the headers: of the first rows the one with most words known from headers, if that is two or more; else the first whose
 * filled cells are at least two thirds of the widest row's, all different, none a number; else the first row there is.
 */
function findHeaderRow(rows: ReadRow[]): ReadRow | null {
  const first = rows.slice(0, rowsSearchedForHeaders)
  let best: ReadRow | null = null
  let most = 1
  for (const row of first) {
    const known = countKnownHeaders(row.cells)
    if (known > most) {
      best = row
      most = known
    }
  }
  if (best) return best
  const widest = Math.max(0, ...first.map((row) => filled(row).length))
  const likely = first.find((row) => {
    const cells = filled(row)
    return (
      cells.length * 3 >= widest * 2 && new Set(cells).size === cells.length && !cells.some((cell) => /^[\d.,\s-]+$/.test(cell))
    )
  })
  return likely ?? rows[0] ?? null
}

function nameHeaders(cells: string[], below: ReadRow[]): string[] {
  // Columns without a header count as far as something stands in most rows under them; beyond that they are a row's own surplus.
  const wide = below.filter((row) => row.raw.fault === null)
  let width = cells.length
  while (width > 0 && (cells[width - 1] as string).trim() === '' && !isUsed(wide, width - 1)) width--
  const seen = new Map<string, number>()
  const taken = new Set(cells.map((cell) => tidyHeader(cell)))
  return cells.slice(0, width).map((cell, index) => {
    const name = tidyHeader(cell) || `Column ${index + 1}`
    let turn = (seen.get(name) ?? 0) + 1
    if (turn > 1) while (taken.has(`${name} (${turn})`)) turn++
    seen.set(name, turn)
    return turn === 1 ? name : `${name} (${turn})`
  })
}

const tidyHeader = (cell: string): string => cell.replace(/\s+/gu, ' ').trim()

const isUsed = (rows: ReadRow[], column: number): boolean => rows.some((row) => (row.cells[column] ?? '').trim() !== '')

const shown = (raw: RawRecord): string => raw.text.slice(0, rawShown)

function problemOf(row: ReadRow, headers: number): RowProblem | null {
  const about = { rowNumber: row.rowNumber, raw: shown(row.raw) }
  if (row.raw.fault === 'unclosed') return { kind: 'unclosed-quote', ...about }
  if (row.raw.fault === 'stray') return { kind: 'stray-quote', ...about }
  const letters = Math.max(...row.cells.map((cell) => cell.length))
  if (letters > mostLetters) return { kind: 'cell-too-long', ...about, letters, mostLetters }
  const surplus = row.cells.slice(headers).some((cell) => cell.trim() !== '')
  return surplus ? { kind: 'more-cells-than-headers', ...about, cells: row.cells.length, headers } : null
}
