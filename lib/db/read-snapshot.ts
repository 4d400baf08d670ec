import 'server-only'
import path from 'node:path'
import Libsql from 'libsql'
import pg from 'pg'
import type { Database } from './client'
import { seenSql } from './sight/seen-sql'
import { ownersSeenBy } from './sight/sighted-client'

export type Cell = string | number | null
/** Rows of one SELECT, as arrays of cells in the order of its columns, some thousands at a time. */
export type ReadRows = (sql: string, values?: Cell[]) => AsyncGenerator<Cell[][], void, void>

const rowsAtATime = 5_000

/** The same, row by row. */
export async function* each(rows: ReadRows, sql: string, values: Cell[] = []): AsyncGenerator<Cell[], void, void> {
  for await (const some of rows(sql, values)) yield* some
}

/**
 * Run several large SELECTs against one unchanging state of the database, past Prisma: four hundred thousand rows of four columns
 * come in about a third of a second. Placeholders are `?`. Booleans come as 0 and 1, counts as numbers.
 *
 * Of a database as somebody sees it, `rows` gives what is seen; `allRows` everything, for what follows from it and is shown to nobody.
 */
export function readSnapshot<T>(database: Database, read: (rows: ReadRows, allRows: ReadRows) => Promise<T>): Promise<T> {
  const ownerIds = ownersSeenBy(database.prisma)
  const reading = (allRows: ReadRows): Promise<T> =>
    read(ownerIds === null ? allRows : (sql, values) => allRows(seenSql(sql, ownerIds, database.engine), values), allRows)
  return database.engine === 'sqlite' ? readSqlite(database.url, reading) : readPostgresql(database.url, reading)
}

/** Rows of a connection to SQLite that is open. */
export const sqliteRows = (connection: InstanceType<typeof Libsql>): ReadRows =>
  async function* (sql, values = []) {
    let some: Cell[][] = []
    for (const row of connection
      .prepare(sql)
      .raw()
      .iterate(...values) as Iterable<Cell[]>) {
      some.push(row)
      if (some.length === rowsAtATime) {
        yield some
        some = []
        // The driver holds the event loop; let others in between.
        await new Promise((resolve) => setImmediate(resolve))
      }
    }
    if (some.length > 0) yield some
  }

async function readSqlite<T>(url: string, read: (rows: ReadRows) => Promise<T>): Promise<T> {
  const connection = new Libsql(path.resolve(url.replace(/^file:/, '')), { timeout: 5000 })
  try {
    connection.exec('BEGIN')
    return await read(sqliteRows(connection))
  } finally {
    if (connection.inTransaction) connection.exec('ROLLBACK')
    connection.close()
  }
}

/** Rows of a connection to PostgreSQL that has a transaction open. @param hasCursors  else each SELECT is handed over whole */
export function postgresqlRows(client: pg.Client, hasCursors = true): ReadRows {
  let cursors = 0
  const asCells = (some: (Cell | boolean)[][]): Cell[][] =>
    some.map((row) => row.map((cell) => (typeof cell === 'boolean' ? Number(cell) : cell)))
  return async function* (sql, values = []) {
    const cursor = `larder_${++cursors}`
    let at = 0
    const text = sql.replace(/\?/g, () => `$${++at}`)
    if (!hasCursors) {
      const all = (await client.query({ text, values, rowMode: 'array' })).rows as (Cell | boolean)[][]
      for (let from = 0; from < all.length; from += rowsAtATime) yield asCells(all.slice(from, from + rowsAtATime))
      return
    }
    await client.query(`DECLARE ${cursor} CURSOR FOR ${text}`, values)
    for (;;) {
      const some = await client.query({ text: `FETCH ${rowsAtATime} FROM ${cursor}`, rowMode: 'array' })
      if (some.rows.length > 0) yield asCells(some.rows as (Cell | boolean)[][])
      if (some.rows.length < rowsAtATime) break
    }
    await client.query(`CLOSE ${cursor}`)
  }
}

async function readPostgresql<T>(url: string, read: (rows: ReadRows) => Promise<T>): Promise<T> {
  const client = new pg.Client({ connectionString: url })
  await client.connect()
  try {
    const hasCursors = await knowsCursors(client, url)
    await client.query('BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY')
    return await read(postgresqlRows(client, hasCursors))
  } finally {
    await client.end()
  }
}

const cursorsAt = new Map<string, boolean>()

/** Whether a SELECT can be read some rows at a time; a database that only speaks PostgreSQL's protocol may hand it over whole. */
async function knowsCursors(client: pg.Client, url: string): Promise<boolean> {
  const known = cursorsAt.get(url)
  if (known !== undefined) return known
  await client.query('BEGIN')
  const has = await client.query('DECLARE larder_0 CURSOR FOR SELECT 1').then(
    () => true,
    (error) => {
      if ('severity' in error) return false
      throw error
    },
  )
  await client.query('ROLLBACK')
  cursorsAt.set(url, has)
  return has
}
