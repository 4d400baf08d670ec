import 'server-only'
import { createHash } from 'node:crypto'
import type pg from 'pg'
import type { SqliteFile } from '../backup/copy-database'
import { namesOf, rowsOfPostgresql, type Table } from '../backup/postgresql-rows'

/** How many rows a table has, and SHA-256 over all of them in the order of their key, as hexadecimal digits. */
export type TableSum = { rows: number; sha256: string }

/** A table with the columns of its key. */
export type KeyedTable = Table & { key: string[] }

/** One moment is written in several ways; without a zone it is UTC, as SQL's own clock writes it. */
function millisecondsOf(cell: unknown): number {
  if (typeof cell === 'number') return cell
  const text = String(cell)
  return Date.parse(/(?:Z|[+-]\d\d:?\d\d)$/.test(text) ? text : `${text.replace(' ', 'T')}Z`)
}

/** A cell as both engines' can be compared: a truth is 0 or 1, a moment its milliseconds, a number the shortest that reads back as it. */
export function canonicalCell(cell: unknown, type: string): string | number | null {
  if (cell === null || cell === undefined) return null
  if (type === 'DATETIME') return millisecondsOf(cell)
  if (typeof cell === 'boolean' || typeof cell === 'bigint') return Number(cell)
  return typeof cell === 'number' ? cell : String(cell)
}

class Summing {
  readonly #hash = createHash('sha256')
  #rows = 0
  constructor(readonly table: Table) {}

  add(row: readonly unknown[]): void {
    const cells = this.table.columns.map(({ type }, at) => canonicalCell(row[at], type))
    this.#hash.update(`${JSON.stringify(cells)}\n`)
    this.#rows += 1
  }

  end = (): TableSum => ({ rows: this.#rows, sha256: this.#hash.digest('hex') })
}

const ordered = (key: readonly string[], collation: string): string =>
  `ORDER BY ${key.map((column) => `"${column}"${collation}`).join(', ')}`

/** Texts are put in order by their bytes on both sides, whatever the language of the database. */
export function sumOfSqlite(file: SqliteFile, table: KeyedTable): TableSum {
  const sum = new Summing(table)
  const rows = file.prepare(`SELECT ${namesOf(table)} FROM "${table.name}" ${ordered(table.key, ' COLLATE BINARY')}`).raw()
  for (const row of rows.iterate() as Iterable<unknown[]>) sum.add(row)
  return sum.end()
}

export async function sumOfPostgresql(client: pg.Client, table: KeyedTable): Promise<TableSum> {
  const sum = new Summing(table)
  const isText = (column: string) => table.columns.find(({ name }) => name === column)?.type === 'TEXT'
  const order = `ORDER BY ${table.key.map((column) => `"${column}"${isText(column) ? ' COLLATE "C"' : ''}`).join(', ')}`
  for await (const rows of rowsOfPostgresql(client, table, order)) for (const row of rows) sum.add(row)
  return sum.end()
}
