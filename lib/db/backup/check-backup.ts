import 'server-only'
import { mkdir } from 'node:fs/promises'
import path from 'node:path'
import Libsql from 'libsql'
import { uploadPart } from '#lib/archive/part-name'
import { archiveTables } from '#lib/archive/tables'
import { type BackupCheck, type BackupFault, type BackupHolds, canRestoreWith, heldNouns } from '#lib/backup/check'
import { databaseName } from '#lib/backup/manifest'
import { fileColumns, namedFilesSql } from '../checking/named-files'
import { stockDiffersFrom, stockNouns } from '../checking/stock-sums'
import { dataFolder } from '../data-folder'
import { closeDraft, openDraft, sweepDrafts } from './backup-folder'
import { countRows, knownMigrations, migrateDatabase, readHolds, type SqliteFile, tablesOf } from './copy-database'
import { type OpenBackup, openBackup } from './open-backup'
import type { ReportBackup } from './write-backup'

/** Check a backup by restoring it to a scratch place in the data folder, which is taken away again. */
export async function checkBackup(file: string, report: ReportBackup = () => {}): Promise<BackupCheck> {
  const at = new Date().toISOString()
  await mkdir(dataFolder(), { recursive: true })
  await sweepDrafts(dataFolder())
  const opened = await openBackup(file)
  if (!opened.ok) return { isGood: false, at, faults: [opened.error], canRestore: false }
  const scratch = await openDraft(dataFolder())
  try {
    const { holds, faults } = await lookThrough(opened.value, path.join(scratch, databaseName), report)
    return faults.length === 0 ? { isGood: true, at, holds } : { isGood: false, at, faults, canRestore: canRestoreWith(faults) }
  } finally {
    opened.value.close()
    await closeDraft(scratch)
  }
}

const nothing = Object.fromEntries(heldNouns.map((noun) => [noun, 0])) as BackupHolds

/**
 * Read every part to its end and hold it against what was written, unpack the database to `database`, bring that up to date and hold its
 * rows against themselves. What it finds wrong is told, the worst first.
 */
export async function lookThrough(
  backup: OpenBackup,
  database: string,
  report: ReportBackup = () => {},
): Promise<{ holds: BackupHolds; faults: BackupFault[] }> {
  const { manifest } = backup
  const faults = [...backup.faults]
  if (faults.length > 0) return { holds: nothing, faults }
  const of = manifest.parts.reduce((sum, { bytes }) => sum + bytes, 0)
  let done = 0
  const onBytes = (bytes: number) => {
    done += bytes
    report({ step: 'checking', done, of })
  }
  for (const { name } of manifest.parts) {
    const isWhole = await backup.readPart(name, name === databaseName ? database : null, onBytes)
    if (!isWhole) faults.push({ kind: 'part-altered', name })
  }
  if (faults.some((fault) => fault.kind === 'part-altered' && fault.name === databaseName)) return { holds: nothing, faults }
  const found = await lookAtDatabase(database, backup)
  return { holds: found.holds, faults: [...faults, ...found.faults] }
}

async function lookAtDatabase(file: string, { manifest }: OpenBackup): Promise<{ holds: BackupHolds; faults: BackupFault[] }> {
  const faults: BackupFault[] = []
  const known = await knownMigrations()
  const before = open(file)
  try {
    before.exec('PRAGMA trusted_schema = OFF')
    const integrity = before.prepare('PRAGMA integrity_check(5)').all() as { integrity_check: string }[]
    const says = integrity.map((row) => row.integrity_check).find((line) => line !== 'ok')
    if (says !== undefined) return { holds: nothing, faults: [{ kind: 'database-damaged', says: says.slice(0, 300) }] }
    const applied = (
      before.prepare('SELECT migration_name AS name FROM "_prisma_migrations" WHERE rolled_back_at IS NULL').all() as {
        name: string
      }[]
    ).map(({ name }) => name)
    const later = applied.find((name) => !known.includes(name))
    if (later !== undefined) return { holds: nothing, faults: [{ kind: 'newer', made: manifest.madeAt }] }
    // Rows are counted as they were written, before any migration.
    for (const [table, said] of Object.entries(manifest.counts)) {
      const found = tablesOf(before).some(({ name }) => name === table) ? countRows(before, `"${table}"`) : 0
      if (found !== said) faults.push({ kind: 'counts-differ', table, said, found })
    }
  } catch (error) {
    return { holds: nothing, faults: [{ kind: 'database-damaged', says: String((error as Error).message).slice(0, 300) }] }
  } finally {
    before.close()
  }
  try {
    await migrateDatabase(`file:${file}`)
  } catch {
    return { holds: nothing, faults: [...faults, { kind: 'other-database' }] }
  }
  const database = open(file)
  try {
    database.exec('PRAGMA trusted_schema = OFF')
    if (!isCollection(database)) return { holds: nothing, faults: [...faults, { kind: 'other-database' }] }
    const broken = database.prepare('PRAGMA foreign_key_check').all() as { table: string }[]
    if (broken[0]) faults.push({ kind: 'broken-links', count: broken.length, table: broken[0].table })
    faults.push(...stockFaults(database), ...fileFaults(database, new Set(manifest.parts.map(({ name }) => name))))
    return {
      faults,
      holds: readHolds(
        database,
        manifest.parts.map(({ name }) => name),
      ),
    }
  } catch (error) {
    return {
      holds: nothing,
      faults: [...faults, { kind: 'database-damaged', says: String((error as Error).message).slice(0, 300) }],
    }
  } finally {
    database.close()
  }
}

const open = (file: string): SqliteFile => new Libsql(file, { timeout: 10_000 })

/** Whether it has the tables and columns of a collection, as tables. */
function isCollection(database: SqliteFile): boolean {
  const tables = new Map(tablesOf(database).map(({ name, columns }) => [name, new Set(columns.map((column) => column.name))]))
  return archiveTables.every(({ name, columns }) => Object.keys(columns).every((column) => tables.get(name)?.has(column)))
}

/** Things whose amount is not the sum of their movements. */
const stockFaults = (database: SqliteFile): BackupFault[] =>
  stockNouns.flatMap((noun) => {
    const count = countRows(database, stockDiffersFrom(noun))
    return count > 0 ? [{ kind: 'stock-differs' as const, noun, count }] : []
  })

/** Files that rows name and that are not among the parts. */
function fileFaults(database: SqliteFile, parts: ReadonlySet<string>): BackupFault[] {
  const missing: string[] = []
  for (const column of fileColumns) {
    const rows = database.prepare(namedFilesSql(column)).all() as { name: string }[]
    for (const { name } of rows) if (!parts.has(uploadPart(column.folder, name))) missing.push(name)
  }
  return missing[0] === undefined ? [] : [{ kind: 'files-missing', count: missing.length, first: missing[0] }]
}
