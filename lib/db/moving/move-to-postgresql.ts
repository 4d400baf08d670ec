import 'server-only'
import { existsSync } from 'node:fs'
import Libsql from 'libsql'
import pg from 'pg'
import { isOfTheMoment } from '#lib/backup/kept-here'
import { ok, type Result, refused } from '#lib/result'
import { migrateDatabase, type SqliteFile, sqlitePath, tablesOf } from '../backup/copy-database'
import { fillTable, takeLinksOff } from '../backup/postgresql-rows'
import { countWrong } from '../checking/check-collection'
import { isPostgresqlUrl } from '../data-folder'
import { newId } from '../new-id'
import { postgresqlRows, sqliteRows } from '../read-snapshot'
import { revisionNotice } from '../write-gate'
import { type KeyedTable, sumOfPostgresql, sumOfSqlite, type TableSum } from './table-sum'

export type MoveRefused =
  | { kind: 'not-from-sqlite' }
  | { kind: 'not-to-postgresql' }
  | { kind: 'no-collection'; file: string }
  /** What must not be is in the collection already. */
  | { kind: 'not-sound'; count: number }
  | { kind: 'not-empty'; table: string }
  /** A table did not arrive as it left; nothing stays of the whole. */
  | { kind: 'differs'; tables: TableMoved[] }
  /** It arrived row by row, and yet holds what must not be. */
  | { kind: 'not-sound-there'; count: number }

/** A table on both sides. */
export type TableMoved = { table: string; here: TableSum; there: TableSum }

export type Moved = {
  tables: TableMoved[]
  revision: number
  /** Somebody wrote to the old one since the moment that was moved: that is not among what was. */
  isWrittenSince: boolean
}

export type MoveProgress = { step: 'checking' | 'copying' | 'comparing'; table: string | null; done: number }

/**
 * Move a whole collection from SQLite into an empty PostgreSQL database, in one transaction: every row as it stands at one moment, compared
 * table by table on both sides before it is kept. Accounts go along; who is signed in, and what else is of the moment, does not. Files stay
 * where they are, in the data folder.
 *
 * @param input.meanwhile  called when all rows are there and none is compared yet, for tests
 * @throws what either database throws; nothing stays then
 */
export async function moveToPostgresql(input: {
  from: string
  to: string
  report?: (progress: MoveProgress) => void
  meanwhile?: (client: pg.Client) => Promise<void>
}): Promise<Result<Moved, MoveRefused>> {
  const { from, to, report = () => {}, meanwhile = async () => {} } = input
  if (isPostgresqlUrl(from)) return refused({ kind: 'not-from-sqlite' })
  if (!isPostgresqlUrl(to)) return refused({ kind: 'not-to-postgresql' })
  if (!existsSync(sqlitePath(from))) return refused({ kind: 'no-collection', file: sqlitePath(from) })
  await migrateDatabase(from)
  await migrateDatabase(to)
  const file = new Libsql(sqlitePath(from), { timeout: 10_000 })
  const client = new pg.Client({ connectionString: to })
  try {
    await client.connect()
    // What is read first fixes the moment that all else is read at.
    file.exec('BEGIN')
    const revision = revisionOf(file)
    report({ step: 'checking', table: null, done: 0 })
    const wrong = await countWrong(sqliteRows(file), 'sqlite')
    if (wrong > 0) return refused({ kind: 'not-sound', count: wrong })
    const tables = keyedTables(file).filter(({ name }) => !isOfTheMoment(name))
    await client.query('BEGIN')
    const full = await findFull(client, tables)
    if (full !== null) return refused({ kind: 'not-empty', table: full })

    const putLinksOn = await takeLinksOff(client)
    let done = 0
    for (const table of tables) {
      report({ step: 'copying', table: table.name, done })
      const onRows = (rows: number) => {
        done += rows
        report({ step: 'copying', table: table.name, done })
      }
      // The migrations put a row there themselves.
      if (table.name === 'Revision') await client.query('DELETE FROM "Revision"')
      await fillTable(client, file, table, { onRows })
    }
    await meanwhile(client)
    await putLinksOn()
    const moved: TableMoved[] = []
    for (const table of tables) {
      report({ step: 'comparing', table: table.name, done })
      moved.push({ table: table.name, here: sumOfSqlite(file, table), there: await sumOfPostgresql(client, table) })
    }
    const differing = moved.filter(({ here, there }) => here.rows !== there.rows || here.sha256 !== there.sha256)
    if (differing.length > 0) return refused({ kind: 'differs', tables: differing })
    report({ step: 'checking', table: null, done })
    const wrongThere = await countWrong(postgresqlRows(client), 'postgresql')
    if (wrongThere > 0) return refused({ kind: 'not-sound-there', count: wrongThere })
    // A process that was begun on the empty database works everything out anew.
    await client.query(`UPDATE "Revision" SET "number" = "number" + 1 WHERE "id" = 'main'`)
    await client.query('INSERT INTO "Change" ("id", "revision", "noun", "nounId") VALUES ($1, $2, $3, $4)', [
      ...[newId(), revision + 1, 'everything', '*'],
    ])
    await client.query('SELECT pg_notify($1, $2)', [revisionNotice, String(revision + 1)])
    await client.query('COMMIT')
    return ok({ tables: moved, revision, isWrittenSince: revisionNow(from) !== revision })
  } finally {
    // What was not committed is gone with the connection.
    await client.end()
    if (file.inTransaction) file.exec('ROLLBACK')
    file.close()
  }
}

const revisionOf = (file: SqliteFile): number =>
  Number((file.prepare(`SELECT "number" AS n FROM "Revision" WHERE "id" = 'main'`).get() as { n: number }).n)

function revisionNow(url: string): number {
  const file = new Libsql(sqlitePath(url), { timeout: 10_000 })
  try {
    return revisionOf(file)
  } finally {
    file.close()
  }
}

function keyedTables(file: SqliteFile): KeyedTable[] {
  return tablesOf(file).map((table) => {
    const columns = file.prepare(`PRAGMA table_info("${table.name}")`).all() as { name: string; pk: number }[]
    const key = columns.filter(({ pk }) => pk > 0).sort((a, b) => a.pk - b.pk)
    if (key.length === 0) throw new Error(`keyedTables: "${table.name}" has no key to put its rows in order by`)
    return { ...table, key: key.map(({ name }) => name) }
  })
}

/** A table with more in it than its migrations put there; null where there is none. */
async function findFull(client: pg.Client, tables: readonly KeyedTable[]): Promise<string | null> {
  for (const { name } of tables) {
    const more = name === 'Revision' ? 'WHERE "number" > 0' : ''
    const { rows } = await client.query(`SELECT 1 FROM "${name}" ${more} LIMIT 1`)
    if (rows.length > 0) return name
  }
  return null
}
