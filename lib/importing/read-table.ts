import { ok, type Result, refused } from '#lib/result'
import { findHeaders, type HeaderChoice, mergedHeaders } from './header-row'
import type { CellMark, Merge, Sheet, SheetRow } from './sheet'
import { splitRecords } from './split-records'
import { finish, rowsAStep, type Steps } from './steps'

export type TableRow = {
  /** The row's number as a spreadsheet shows it: the first of the file is 1, title lines and blank rows count. */
  rowNumber: number
  /** As many cells as there are headers, as written. */
  cells: string[]
  /** What is known of its cells beyond their text; `column` is the place among the headers. */
  marks?: CellMark[]
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
  /** 2 where the headers stand in two rows, one under the other. */
  headerRows: 1 | 2
  rows: TableRow[]
  /** Rows that could not be read; the others are kept. */
  problems: RowProblem[]
  /** What was passed over or made of the sheet, to be said. */
  warnings: TableWarning[]
}

/** Something that was passed over or made of a sheet before its rows were read, to be said. */
export type TableWarning = {
  kind: 'totals-row' | 'headers-again' | 'merged-cells-filled' | 'more-codes-than-can-be-told'
  rowNumber: number
  raw: string
  /** How many cells, where it is said once of all. */
  count?: number
}

export type TableRefused =
  | { kind: 'no-rows' }
  | { kind: 'too-many-rows'; mostRows: number }
  | { kind: 'header-row-broken'; rowNumber: number; raw: string }
  | { kind: 'too-many-columns'; columns: number; mostColumns: number }

export const mostRows = 200_000
export const mostColumns = 500
const mostLetters = 10_000
const rowsSearchedForHeaders = 25
/** What is kept of a row that could not be read, to show it. */
const rawShown = 200

/**
 * Part a text into headers and rows.
 *
 * Blank rows are passed over, short rows filled up with blank cells, headers that repeat numbered (`Colour`, `Colour (2)`) and blank ones
 * named after their place (`Column 3`). Title lines above the headers are passed over too, unless `headerRowNumber` says which row they are.
 */
export function readTable(
  text: string,
  { separator, ...choice }: { separator: string } & HeaderChoice,
): Result<Table, TableRefused> {
  const rows = finish(rowsOfText(text, separator))
  return rows.ok ? finish(tableOfSheet(rows.value, choice)) : rows
}

/** The rows of a text file, with what cannot be read among them. */
export function* rowsOfText(text: string, separator: string): Steps<Result<Sheet, TableRefused>> {
  const rows: SheetRow[] = []
  const body = text.replace(/^sep=[,;|\t](\r\n|\n|\r)/i, '$1')
  for (const { text: raw, rowNumber, fault, cells } of splitRecords(body, separator, mostLetters)) {
    if (fault === null && cells.every(isBlank)) continue
    if (rows.push({ rowNumber, cells, fault, raw }) > mostRows + rowsSearchedForHeaders)
      return refused({ kind: 'too-many-rows', mostRows })
    if (rows.length % rowsAStep === 0) yield
  }
  return ok({ rows, merges: [], marks: [] })
}

const isBlank = (cell: string): boolean => cell === '' || cell.trim() === ''

/** Find the headers of a sheet and what stands under them, one row for each thing. */
export function* tableOfSheet(sheet: Sheet, choice: HeaderChoice): Steps<Result<Table, TableRefused>> {
  const { rows } = sheet
  const found = findHeaders(rows.slice(0, rowsSearchedForHeaders), sheet, choice, rows)
  if (found === null) return refused({ kind: 'no-rows' })
  const { header, second } = found
  if (header.fault !== null) return refused({ kind: 'header-row-broken', rowNumber: header.rowNumber, raw: shown(header) })

  const last = (second ?? header).rowNumber
  const below = rows.filter((row) => row.rowNumber > last)
  if (below.length === 0) return refused({ kind: 'no-rows' })
  if (below.length > mostRows) return refused({ kind: 'too-many-rows', mostRows })
  const headers = nameHeaders(mergedHeaders(header, second, sheet.merges), below)
  if (headers.length > mostColumns) return refused({ kind: 'too-many-columns', columns: headers.length, mostColumns })

  const table: Table = {
    headers,
    headerRowNumber: header.rowNumber,
    headerRows: second === null ? 1 : 2,
    rows: [],
    problems: [],
    warnings: [],
  }
  const marksOf = marksByRow(sheet.marks)
  const fillDown = filledDown(below, sheet.merges, headers.length)
  if (fillDown > 0) table.warnings.push({ kind: 'merged-cells-filled', rowNumber: last + 1, raw: '', count: fillDown })
  let at = 0
  for (const row of below) {
    if (++at % rowsAStep === 0) yield
    const problem = problemOf(row, headers.length)
    if (problem) {
      table.problems.push(problem)
      continue
    }
    const cells = row.cells.length === headers.length ? row.cells : headers.map((_, index) => row.cells[index] ?? '')
    const skipped = isHeaderAgain(cells, headers, header) ? 'headers-again' : isTotals(cells) ? 'totals-row' : null
    if (skipped !== null) {
      const raw = skipped === 'totals-row' ? cells.filter((cell) => cell !== '').join(' | ') : ''
      table.warnings.push({ kind: skipped, rowNumber: row.rowNumber, raw })
      continue
    }
    const marks = marksOf.get(row.rowNumber)
    table.rows.push(marks ? { rowNumber: row.rowNumber, cells, marks } : { rowNumber: row.rowNumber, cells })
  }
  if (table.rows.length + table.problems.length === 0) return refused({ kind: 'no-rows' })
  return ok(table)
}

function nameHeaders(cells: string[], below: SheetRow[]): string[] {
  // Columns without a header count as far as something stands in most rows under them; beyond that they are a row's own surplus.
  const wide = below.filter((row) => row.fault === null)
  let width = cells.length
  while (width > 0 && isBlank(cells[width - 1] as string) && !isUsed(wide, width - 1)) width--
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

const isUsed = (rows: SheetRow[], column: number): boolean => rows.some((row) => !isBlank(row.cells[column] ?? ''))

export const shown = (row: SheetRow): string => (row.raw ?? row.cells.join(' | ')).slice(0, rawShown)

export function marksByRow(marks: readonly CellMark[]): Map<number, CellMark[]> {
  const byRow = new Map<number, CellMark[]>()
  for (const mark of marks) {
    const known = byRow.get(mark.rowNumber)
    if (known) known.push(mark)
    else byRow.set(mark.rowNumber, [mark])
  }
  return byRow
}

/**
 * Write what a cell joined from several rows says into each of those rows; a cell joined across columns says it once.
 *
 * Changes `rows` in place. @returns how many cells were filled
 */
export function filledDown(rows: readonly SheetRow[], merges: readonly Merge[], width: number): number {
  const down = merges.filter(({ top, bottom, left }) => bottom > top && left < width)
  if (down.length === 0) return 0
  const byNumber = new Map(rows.map((row) => [row.rowNumber, row]))
  let filled = 0
  for (const { top, bottom, left } of down) {
    const text = byNumber.get(top)?.cells[left] ?? ''
    if (isBlank(text)) continue
    // A joined cell may be said to go on for a million rows: only those that hold something are looked at.
    const numbers = bottom - top < rows.length ? spanOf(top + 1, bottom) : rows.map(({ rowNumber }) => rowNumber)
    for (const rowNumber of numbers) {
      const row = rowNumber > top && rowNumber <= bottom ? byNumber.get(rowNumber) : undefined
      if (row === undefined || !isBlank(row.cells[left] ?? '')) continue
      while (row.cells.length < left) row.cells.push('')
      row.cells[left] = text
      filled++
    }
  }
  return filled
}

const spanOf = (from: number, to: number): number[] => Array.from({ length: to - from + 1 }, (_, at) => from + at)

/** The headers once more, as at the top of each printed page. */
function isHeaderAgain(cells: readonly string[], headers: readonly string[], header: SheetRow): boolean {
  if (cells[0] !== undefined && !isBlank(cells[0]) && !alike(cells[0], headers[0], header.cells[0])) return false
  let same = 0
  for (let at = 0; at < cells.length; at++) {
    const cell = cells[at] as string
    if (isBlank(cell)) continue
    if (!alike(cell, headers[at], header.cells[at])) return false
    same++
  }
  return same >= 2
}

const alike = (cell: string, ...headers: (string | undefined)[]): boolean => {
  const tidy = tidyHeader(cell).toLowerCase()
  return headers.some((header) => header !== undefined && tidyHeader(header).toLowerCase() === tidy)
}

const totalWord =
  /^(?:(?:grand|sub)[ -]?)?(?:totals?|sum|summe|gesamt|zwischensumme|total général|somme)(?: (?:skeins|stitches|threads|charts|pieces|price|cost))?\s*:?$/iu
const figure = /^[-+]?[\d.,\s]+(?:\s?%)?$/u

/** A word for a total and figures beside it, and nothing else. */
function isTotals(cells: readonly string[]): boolean {
  let words = 0
  let figures = 0
  for (const cell of cells) {
    if (isBlank(cell)) continue
    if (figure.test(cell)) figures++
    else if (++words > 1 || !totalWord.test(cell.trim())) return false
  }
  return words === 1 && figures >= 1
}

export function problemOf(row: SheetRow, headers: number): RowProblem | null {
  const { rowNumber, cells } = row
  if (row.fault === 'unclosed') return { kind: 'unclosed-quote', rowNumber, raw: shown(row) }
  if (row.fault === 'stray') return { kind: 'stray-quote', rowNumber, raw: shown(row) }
  let letters = 0
  for (const cell of cells) if (cell.length > letters) letters = cell.length
  if (letters > mostLetters) return { kind: 'cell-too-long', rowNumber, raw: shown(row), letters, mostLetters }
  for (let at = headers; at < cells.length; at++) {
    if (!isBlank(cells[at] as string))
      return { kind: 'more-cells-than-headers', rowNumber, raw: shown(row), cells: cells.length, headers }
  }
  return null
}
