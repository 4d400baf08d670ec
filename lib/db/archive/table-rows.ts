import 'server-only'
import type { ArchiveCell, ArchiveRow } from '#lib/archive/read-row'
import type { ArchiveTable, ColumnKind } from '#lib/archive/tables'
import type { Database } from '../client'
import type { Cell, ReadRows } from '../read-snapshot'

type Engine = Database['engine']

/** Rows in the order of their keys, letter by letter, so that both engines write the same bytes. */
function selectOf({ name, columns, key }: ArchiveTable, engine: Engine): string {
  const cells = Object.entries(columns).map(([column, kind]) =>
    engine === 'postgresql' && isMoment(kind) ? `to_char("${column}", 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"')` : `"${column}"`,
  )
  const order = key.map((column) => (engine === 'postgresql' ? `"${column}" COLLATE "C"` : `"${column}"`))
  return `SELECT ${cells.join(', ')} FROM "${name}" ORDER BY ${order.join(', ')}`
}

const isMoment = (kind: ColumnKind): boolean => kind === 'moment' || kind === 'moment?'

function cellOf(kind: ColumnKind, cell: Cell): ArchiveCell {
  if (cell === null) return null
  if (kind === 'yes-no') return Number(cell) === 1
  if (isMoment(kind)) return new Date(cell).toISOString()
  // NUL says nothing, and PostgreSQL cannot keep it.
  return typeof cell === 'string' && cell.includes('\0') ? cell.replaceAll('\0', '') : cell
}

/** All rows of a table as the archive has them, some thousands at a time. */
export async function* tableRows(rows: ReadRows, table: ArchiveTable, engine: Engine): AsyncGenerator<ArchiveRow[], void, void> {
  const columns = Object.entries(table.columns)
  for await (const some of rows(selectOf(table, engine)))
    yield some.map((cells) => {
      const row: ArchiveRow = {}
      for (const [at, [column, kind]] of columns.entries()) row[column] = cellOf(kind, cells[at] ?? null)
      return row
    })
}

export async function countRows(rows: ReadRows, table: string): Promise<number> {
  for await (const [first] of rows(`SELECT count(*) FROM "${table}"`)) return Number(first?.[0] ?? 0)
  return 0
}
