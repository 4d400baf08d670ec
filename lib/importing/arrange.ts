import { ok, type Result, refused } from '#lib/result'
import type { HeaderChoice } from './header-row'
import { countKnownHeaders } from './header-words'
import { readHeld, splitHeld } from './held-in-cell'
import type { LayoutChoice, SheetLayout } from './layouts'
import { filledDown, marksByRow, problemOf, type Table, type TableRefused, tableOfSheet } from './read-table'
import { cellNumber, mostPerCell, mostRowsInCells } from './row-names'
import type { Sheet, SheetRow } from './sheet'
import { rowsAStep, type Steps } from './steps'

/** The headers of what a sheet of drawers is turned into. */
export const drawerHeaders = ['Place', 'Code', 'Name', 'Skeins']

/**
 * Make one table of a sheet, whatever way it is laid out: as rows under headers, or as drawers with what lies in them, which is turned into
 * a row for each thread.
 */
export function* arrangeSheet(
  sheet: Sheet,
  choice: HeaderChoice & LayoutChoice,
): Steps<Result<Table & { layout: SheetLayout }, TableRefused>> {
  const found = choice.layout === 'rows' ? null : findDrawers(sheet, choice)
  if (found === null) {
    const table = yield* tableOfSheet(sheet, choice)
    return table.ok ? ok({ ...table.value, layout: 'rows' }) : table
  }
  return yield* tableOfDrawers(sheet, found)
}

/** Where the drawers' labels stand: `labelRow` is the place of a row in `rows`, and the rows under it hold what lies in them. */
type Drawers = { layout: Exclude<SheetLayout, 'rows'>; labelRow: number; from: number }

const rowsLookedAt = 25
const rowsJudged = 60
/** Of the cells judged, so many must look like codes. Chosen by trial: a few names or remarks among codes stay above it. */
const leastCodes = 0.8

function findDrawers({ rows }: Sheet, { layout, headerRowNumber }: HeaderChoice & LayoutChoice): Drawers | null {
  const chosen = headerRowNumber === undefined ? undefined : rows.findIndex((row) => row.rowNumber === headerRowNumber)
  if (layout === 'drawer-rows') {
    const labelRow = chosen === undefined ? firstWide(rows) : chosen
    return labelRow === -1
      ? null
      : { layout, labelRow, from: chosen === undefined && !hasHeading(rows[labelRow]) ? labelRow : labelRow + 1 }
  }
  if (layout !== undefined && layout !== 'rows') {
    const labelRow = chosen === undefined ? firstWide(rows) : chosen
    return labelRow === -1 ? null : { layout, labelRow, from: labelRow + 1 }
  }
  // Nothing is said: only a sheet that has no headers anybody knows is looked at for drawers.
  const first = rows.slice(0, rowsLookedAt)
  if (first.some((row) => row.fault !== null || countKnownHeaders(row.cells) >= 2)) return null
  const labelRow = chosen ?? firstWide(first)
  const row = rows[labelRow]
  if (row === undefined) return null
  const below = rows.slice(labelRow + 1, labelRow + 1 + rowsJudged)
  const [corner = '', ...labels] = row.cells
  const columnLabels = labels.filter(isFilled)
  const hasRowLabels = below.length >= 2 && areLabels(below.map(({ cells }) => cells[0] ?? ''))
  const across = row.cells.filter(isFilled)
  if (below.length > 0 && across.length >= 2 && areLabels(across)) {
    if (!isFilled(corner) && columnLabels.length >= 2 && hasRowLabels && areCodes(below.map(({ cells }) => cells.slice(1))))
      return { layout: 'drawer-grid', labelRow, from: labelRow + 1 }
    if (areCodes(below.map(({ cells }) => cells))) return { layout: 'drawer-columns', labelRow, from: labelRow + 1 }
  }
  const all = hasHeading(row) ? below : [row, ...below]
  if (all.length < 2 || !areLabels(all.map(({ cells }) => cells[0] ?? '')) || !areCodes(all.map(({ cells }) => cells.slice(1))))
    return null
  return { layout: 'drawer-rows', labelRow, from: hasHeading(row) ? labelRow + 1 : labelRow }
}

const isFilled = (cell: string | undefined): boolean => cell !== undefined && cell.trim() !== ''

/** The first row of two cells or more: what stands above is a title. */
const firstWide = (rows: readonly SheetRow[]): number => rows.findIndex(({ cells }) => cells.filter(isFilled).length >= 2)

/** `Drawer` over the labels of drawers. */
const hasHeading = (row: SheetRow | undefined): boolean => row !== undefined && countKnownHeaders([row.cells[0] ?? '']) > 0

/** Labels of drawers: each another, a letter with a figure or a word for a place in it; or all of them small numbers, or single letters. */
function areLabels(cells: readonly string[]): boolean {
  const labels = cells.map((cell) => cell.trim())
  if (labels.some((label) => label === '' || label.length > 24) || new Set(labels).size !== labels.length) return false
  if (labels.every((label) => /^\d{1,2}$/.test(label)) || labels.every((label) => /^\p{L}$/u.test(label)))
    return labels.length >= 2
  return labels.every(
    (label) =>
      /^\p{L}+[ .-]?\d/u.test(label) || /\b(?:drawer|box|tray|bag|shelf|rack|tin|bin|ring|schublade|tiroir)\b/iu.test(label),
  )
}

function areCodes(rows: readonly (readonly string[])[]): boolean {
  const held = rows.flatMap((cells) => cells.filter(isFilled).flatMap(splitHeld))
  const codes = held.filter((text) => /^[\p{L}]{0,3}[-.]?\d[\d\p{L}.-]*$/u.test(readHeld(text).code))
  return held.length >= 2 && codes.length >= leastCodes * held.length
}

function* tableOfDrawers(
  sheet: Sheet,
  { layout, labelRow, from }: Drawers,
): Steps<Result<Table & { layout: SheetLayout }, TableRefused>> {
  const header = sheet.rows[labelRow] as SheetRow
  if (header.fault !== null) return refused({ kind: 'header-row-broken', rowNumber: header.rowNumber, raw: header.raw ?? '' })
  const below = sheet.rows.slice(from)
  if (below.length === 0) return refused({ kind: 'no-rows' })
  if ((below.at(-1) as SheetRow).rowNumber > mostRowsInCells) return refused({ kind: 'too-many-rows', mostRows: mostRowsInCells })
  const table: Table & { layout: SheetLayout } = {
    headers: drawerHeaders,
    headerRowNumber: header.rowNumber,
    headerRows: 1,
    rows: [],
    problems: [],
    warnings: [],
    layout,
  }
  const width = Math.max(...sheet.rows.map(({ cells }) => cells.length))
  const labels = layout === 'drawer-rows' ? [] : labelsAcross(header, sheet)
  if (layout !== 'drawer-columns') {
    const filled = filledDown(below, sheet.merges, 1)
    if (filled > 0)
      table.warnings.push({ kind: 'merged-cells-filled', rowNumber: below[0]?.rowNumber ?? 1, raw: '', count: filled })
  }
  const marksOf = marksByRow(sheet.marks)
  let at = 0
  for (const row of below) {
    if (++at % rowsAStep === 0) yield
    const problem = problemOf(row, width)
    if (problem !== null) {
      table.problems.push(problem)
      continue
    }
    const ownLabel = (row.cells[0] ?? '').trim()
    for (let column = layout === 'drawer-columns' ? 0 : 1; column < row.cells.length; column++) {
      const cell = row.cells[column] as string
      const place = placeOf(layout, ownLabel, labels[column] ?? '')
      const held = splitHeld(cell)
      if (held.length > mostPerCell)
        table.warnings.push({
          kind: 'more-codes-than-can-be-told',
          rowNumber: row.rowNumber,
          raw: cell.slice(0, 80),
          count: mostPerCell,
        })
      const marks = marksOf.get(row.rowNumber)?.filter((mark) => mark.column === column)
      held.slice(0, mostPerCell).forEach((text, turn) => {
        const { code, name, skeins } = readHeld(text)
        const rowNumber = cellNumber(row.rowNumber, column, turn)
        table.rows.push({
          rowNumber,
          cells: [place, code, name, skeins],
          // A note on the cell is one of the first thread in it; what is said of the text itself is said of the code.
          ...(marks && marks.length > 0 && turn === 0 && { marks: marks.map((mark) => ({ ...mark, rowNumber, column: 1 })) }),
        })
      })
    }
  }
  return table.rows.length + table.problems.length === 0 ? refused({ kind: 'no-rows' }) : ok(table)
}

/** A label joined across several columns is the label of each of them. */
function labelsAcross(header: SheetRow, sheet: Sheet): string[] {
  const labels = header.cells.map((cell) => cell.trim())
  for (const { top, bottom, left, right } of sheet.merges) {
    if (header.rowNumber < top || header.rowNumber > bottom || right - left > 500) continue
    for (let at = left + 1; at <= right; at++) labels[at] ||= labels[left] ?? ''
  }
  return labels
}

function placeOf(layout: SheetLayout, ownLabel: string, columnLabel: string): string {
  if (layout === 'drawer-rows') return ownLabel
  if (layout === 'drawer-columns') return columnLabel
  // `A` and `7` is A7; anything longer is parted, as T2 and 14 is T2-14.
  const isShort = ownLabel.length <= 1 || columnLabel.length <= 1
  return [ownLabel, columnLabel].filter((label) => label !== '').join(isShort && /^\p{L}?$/u.test(ownLabel) ? '' : '-')
}
