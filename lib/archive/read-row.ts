import { ok, type Result, refused } from '#lib/result'
import type { KeptFolder } from './part-name'
import type { ArchiveTable, ColumnKind } from './tables'

export type ArchiveCell = string | number | boolean | null
export type ArchiveRow = Record<string, ArchiveCell>

/** What is wrong with a line of a table: it is no row, lacks a column, has one too many, or a cell is not what its column holds. */
export type RowFault =
  | { kind: 'not-a-row' }
  | { kind: 'column-missing'; column: string }
  | { kind: 'column-unknown'; column: string }
  | { kind: 'cell-not-right'; column: string; takes: ColumnKind }

const mostWhole = 2 ** 31 - 1
const momentShape = /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z$/

/** Which folder the file named by a column is in; null for columns that name none. */
export const folderOfKind = (kind: ColumnKind): KeptFolder | null =>
  kind === 'photo?' ? 'photos' : kind === 'file' ? 'files' : null

/** Whether a cell is what a column of this kind holds: by type, and by the bounds both databases keep. */
export function isCell(kind: ColumnKind, cell: unknown): cell is ArchiveCell {
  if (cell === null) return kind.endsWith('?')
  switch (kind) {
    case 'text':
    case 'text?':
    case 'photo?':
    case 'file':
      // The one letter that PostgreSQL cannot keep.
      return typeof cell === 'string' && !cell.includes('\0')
    case 'whole':
    case 'whole?':
      return typeof cell === 'number' && Number.isInteger(cell) && Math.abs(cell) <= mostWhole
    case 'real':
    case 'real?':
      return typeof cell === 'number' && Number.isFinite(cell)
    case 'yes-no':
      return typeof cell === 'boolean'
    case 'moment':
    case 'moment?':
      return typeof cell === 'string' && momentShape.test(cell) && !Number.isNaN(Date.parse(cell))
  }
}

/** A line of a table as a row: exactly the columns of the table, each cell of its kind. */
export function readRow(table: ArchiveTable, raw: unknown): Result<ArchiveRow, RowFault> {
  if (raw === null || typeof raw !== 'object' || Array.isArray(raw)) return refused({ kind: 'not-a-row' })
  const given = raw as Record<string, unknown>
  const row: ArchiveRow = {}
  for (const [column, kind] of Object.entries(table.columns)) {
    if (!Object.hasOwn(given, column)) return refused({ kind: 'column-missing', column })
    const cell = given[column]
    if (!isCell(kind, cell)) return refused({ kind: 'cell-not-right', column, takes: kind })
    row[column] = cell
  }
  const column = Object.keys(given).find((name) => !Object.hasOwn(table.columns, name))
  return column === undefined ? ok(row) : refused({ kind: 'column-unknown', column })
}
