import 'server-only'
import { readdir } from 'node:fs/promises'
import path from 'node:path'
import { pathToFileURL } from 'node:url'
import Libsql from 'libsql'
import pg from 'pg'
import type { BackupHolds } from '#lib/backup/check'
import { isOfTheMoment } from '#lib/backup/kept-here'
import { isPostgresqlUrl } from '../data-folder'
import { countUploads } from './list-uploads'
import { namesOf, rowsOfPostgresql } from './postgresql-rows'

export type SqliteFile = InstanceType<typeof Libsql>

export const sqlitePath = (url: string): string => path.resolve(url.replace(/^file:/, ''))

/** Bring a database up to date by this version's migrations; they lie beside the program, wherever this was bundled to. */
export async function migrateDatabase(url: string): Promise<void> {
  const file = pathToFileURL(path.join(process.cwd(), 'prisma', 'migrate.mjs')).href
  const { migrate } = (await import(file)) as { migrate: (url: string) => Promise<string[]> }
  await migrate(url)
}

/** The migrations this version has, oldest first. */
export async function knownMigrations(): Promise<string[]> {
  const names = await readdir(path.join(process.cwd(), 'prisma', 'sqlite', 'migrations'), { withFileTypes: true })
  return names
    .filter((entry) => entry.isDirectory())
    .map(({ name }) => name)
    .sort()
}

/** The tables of a collection and their columns in order, with the type each was declared with. */
export function tablesOf(database: SqliteFile, schema = 'main'): { name: string; columns: { name: string; type: string }[] }[] {
  const names = database
    .prepare(
      `SELECT name FROM ${schema}.sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite\\_%' ESCAPE '\\'
         AND name NOT LIKE '\\_%' ESCAPE '\\' ORDER BY name`,
    )
    .all() as { name: string }[]
  return names.map(({ name }) => ({
    name,
    columns: (database.prepare(`PRAGMA ${schema}.table_info("${name}")`).all() as { name: string; type: string }[]).map(
      (column) => ({ name: column.name, type: column.type.toUpperCase() }),
    ),
  }))
}

const heldFrom = {
  charts: '"Chart" WHERE "goneAt" IS NULL',
  threads: '"Thread" WHERE "goneAt" IS NULL',
  cloth: '"ClothPiece" WHERE "goneAt" IS NULL',
  notions: '"Notion" WHERE "goneAt" IS NULL',
  places: '"Place" WHERE "goneAt" IS NULL',
  projects: '"Project" WHERE "goneAt" IS NULL',
  movements: '"Movement"',
} as const

export const countRows = (database: SqliteFile, from: string): number =>
  Number((database.prepare(`SELECT count(*) AS n FROM ${from}`).get() as { n: number }).n)

/** What a database holds, and how many files of those names lie beside it. @param parts  uploads/photos/… */
export function readHolds(database: SqliteFile, parts: readonly string[]): BackupHolds {
  const rows = Object.entries(heldFrom).map(([noun, from]) => [noun, countRows(database, from)])
  return { ...(Object.fromEntries(rows) as Record<keyof typeof heldFrom, number>), ...countUploads(parts) }
}

/**
 * Copy the whole collection into a SQLite file of its own, as it stands at one moment, while others read and write it. Accounts go along; who
 * is signed in, and what else is of the moment, does not.
 *
 * SQLite copies itself. From PostgreSQL every table is read in one repeatable-read transaction into a file made by the same migrations:
 * so there is one kind of backup, it is checked the same way wherever it comes from, and either engine restores it.
 *
 * @param onRows  told how many rows were copied so far, PostgreSQL only
 */
export async function copyDatabase(url: string, target: string, onRows: (done: number) => void = () => {}): Promise<void> {
  if (isPostgresqlUrl(url)) return copyPostgresql(url, target, onRows)
  const database = new Libsql(sqlitePath(url), { timeout: 10_000, readonly: false })
  try {
    database.prepare('VACUUM INTO ?').run(target)
  } finally {
    database.close()
  }
  clearOfTheMoment(target)
}

/** Take out of a copy what is of the moment only, and leave nothing of it in the file's free pages either. */
function clearOfTheMoment(file: string): void {
  const copy = new Libsql(file, { timeout: 10_000 })
  try {
    copy.exec('PRAGMA journal_mode = DELETE')
    copy.exec('PRAGMA secure_delete = ON')
    const there = tablesOf(copy).filter(({ name }) => isOfTheMoment(name) && countRows(copy, `"${name}"`) > 0)
    for (const { name } of there) copy.exec(`DELETE FROM "${name}"`)
  } finally {
    copy.close()
  }
}

async function copyPostgresql(url: string, target: string, onRows: (done: number) => void): Promise<void> {
  const loading = `${target}.loading`
  await migrateDatabase(`file:${loading}`)
  const file = new Libsql(loading, { timeout: 10_000 })
  const client = new pg.Client({ connectionString: url })
  let done = 0
  try {
    await client.connect()
    await client.query('BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY')
    file.exec('PRAGMA foreign_keys = OFF')
    file.exec('BEGIN IMMEDIATE')
    for (const table of tablesOf(file)) {
      // The migrations put a row or two there themselves.
      file.exec(`DELETE FROM "${table.name}"`)
      if (isOfTheMoment(table.name)) continue
      const insert = file.prepare(
        `INSERT INTO "${table.name}" (${namesOf(table)}) VALUES (${table.columns.map(() => '?').join(', ')})`,
      )
      for await (const rows of rowsOfPostgresql(client, table)) {
        for (const row of rows) insert.run(...row)
        done += rows.length
        onRows(done)
      }
    }
    file.exec('COMMIT')
    // One file, with no companions and no gaps.
    file.prepare('VACUUM INTO ?').run(target)
  } finally {
    if (file.inTransaction) file.exec('ROLLBACK')
    file.close()
    await client.end()
  }
}
