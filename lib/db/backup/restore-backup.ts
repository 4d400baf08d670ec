import 'server-only'
import { createHash } from 'node:crypto'
import { createReadStream } from 'node:fs'
import { constants, copyFile, mkdir, rename, rm, stat, statfs } from 'node:fs/promises'
import path from 'node:path'
import { pipeline } from 'node:stream/promises'
import Libsql from 'libsql'
import pg from 'pg'
import { findPart } from '#lib/archive/part-name'
import { canRestoreWith } from '#lib/backup/check'
import { databaseName } from '#lib/backup/manifest'
import { ok, type Result, refused } from '#lib/result'
import { dataFolder, isPostgresqlUrl } from '../data-folder'
import { newId } from '../new-id'
import { closeDraft, openDraft, sweepDrafts } from './backup-folder'
import { type BackupRefused, Refused, refusalOf } from './backup-refused'
import { lookThrough } from './check-backup'
import { type SqliteFile, sqlitePath, tablesOf } from './copy-database'
import { type OpenBackup, openBackup } from './open-backup'
import { type ReportBackup, syncFolder, writeBackup } from './write-backup'

/**
 * Put the collection of a backup in the place of the one that is there.
 *
 * The backup is restored to a scratch place and checked; the present collection is set aside as a backup of its own; the files are laid
 * beside those that are there, since each has a name of its own for good; then, in one transaction, every row goes and the backup's rows
 * come. Killed at any moment, the database has either all of the old or all of the new, and the files for both.
 *
 * The revision goes on from the higher of the two and a change row says `everything`, so that every process that holds answers works them
 * out anew.
 *
 * @param holdWrites  resolves once nobody in this process writes any more; the present is set aside after that
 */
export async function restoreBackup(input: {
  url: string
  /** The backup's file. */
  file: string
  /** Where the present collection is set aside. */
  folder: string
  report?: ReportBackup
  holdWrites?: () => Promise<void>
}): Promise<Result<{ setAside: string }, BackupRefused>> {
  const { url, file, folder, report = () => {}, holdWrites = async () => {} } = input
  await mkdir(dataFolder(), { recursive: true })
  await sweepDrafts(dataFolder())
  const opened = await openBackup(file)
  if (!opened.ok) return refused({ kind: 'bad-backup', faults: [opened.error] })
  const backup = opened.value
  let scratch: string | null = null
  try {
    await holdRoom(backup)
    scratch = await openDraft(dataFolder())
    const database = path.join(scratch, databaseName)
    const { faults } = await lookThrough(backup, database, report)
    if (!canRestoreWith(faults)) return refused({ kind: 'bad-backup', faults })
    await holdWrites()
    report({ step: 'setting-aside', done: 0, of: 0 })
    const setAside = await writeBackup({ url, folder, kind: 'before-restore' })
    if (!setAside.ok) return setAside
    const revision = await revisionSetAside(path.join(folder, setAside.value.name))
    await unpackUploads(backup, scratch, report)
    report({ step: 'putting-in-place', done: 0, of: 0 })
    if (isPostgresqlUrl(url)) await fillPostgresql(url, database, revision)
    else fillSqlite(sqlitePath(url), database, revision)
    return ok({ setAside: setAside.value.name })
  } catch (error) {
    if (error instanceof Refused) return refused(error.refusal)
    const refusal = refusalOf(error, dataFolder())
    if (refusal) return refused(refusal)
    throw error
  } finally {
    backup.close()
    if (scratch !== null) await closeDraft(scratch)
  }
}

/** @throws {Refused} where the data folder cannot take what is unpacked */
async function holdRoom({ manifest }: OpenBackup): Promise<void> {
  const databaseBytes = manifest.parts.find(({ name }) => name === databaseName)?.bytes ?? 0
  // The scratch copy, and the rows once more on their way into place.
  const needBytes = 2 * databaseBytes + manifest.parts.reduce((sum, { bytes }) => sum + bytes, 0)
  const { bavail, bsize } = await statfs(dataFolder())
  if (bavail * bsize < needBytes) throw new Refused({ kind: 'disk-full', folder: dataFolder(), needBytes })
}

async function revisionSetAside(file: string): Promise<number> {
  const opened = await openBackup(file)
  if (!opened.ok) throw new Refused({ kind: 'bad-backup', faults: [opened.error] })
  opened.value.close()
  return opened.value.manifest.revision
}

/** Lay the backup's files into the data folder; one that is there with the same bytes is left as it is. */
async function unpackUploads(backup: OpenBackup, scratch: string, report: ReportBackup): Promise<void> {
  const uploads = backup.manifest.parts.flatMap((part) => {
    const found = findPart(part.name)
    return found?.kind === 'upload' ? [{ ...part, folder: found.folder, fileName: found.name }] : []
  })
  const of = uploads.reduce((sum, { bytes }) => sum + bytes, 0)
  let done = 0
  const folders = new Set<string>()
  for (const { name, bytes, sha256, folder, fileName } of uploads) {
    const inside = path.join(dataFolder(), 'uploads', folder)
    const target = path.join(inside, fileName)
    if ((await sha256Of(target, bytes)) !== sha256) {
      const draft = path.join(scratch, fileName)
      if (!(await backup.readPart(name, draft)))
        throw new Refused({ kind: 'bad-backup', faults: [{ kind: 'part-altered', name }] })
      await mkdir(inside, { recursive: true })
      // Of the same name and other bytes: what was there is set aside beside it, under a name nothing reads.
      if ((await stat(target).catch(() => null)) !== null) await rename(target, `${target}.replaced-${Date.now()}`)
      await rename(draft, target)
      folders.add(inside)
    }
    done += bytes
    report({ step: 'unpacking', done, of })
  }
  for (const folder of folders) await syncFolder(folder)
}

async function sha256Of(file: string, bytes: number): Promise<string | null> {
  const found = await stat(file).catch(() => null)
  if (found === null || found.size !== bytes) return null
  const hash = createHash('sha256')
  await pipeline(createReadStream(file), hash)
  return hash.digest('hex')
}

/** A change row that makes every reader start again from the database. */
const everything = (revision: number) => ({ id: newId(), revision, noun: 'everything', nounId: '*' })

function fillSqlite(live: string, scratch: string, revisionSetAside: number): void {
  const database = new Libsql(live, { timeout: 15_000 })
  try {
    // Neither has an effect inside a transaction. What is put in place was checked, and is once more before it is kept.
    database.exec('PRAGMA foreign_keys = OFF')
    database.prepare('ATTACH ? AS restored').run(scratch)
    database.exec('BEGIN IMMEDIATE')
    const now = Number(
      (database.prepare(`SELECT "number" AS n FROM main."Revision" WHERE "id" = 'main'`).get() as { n: number }).n,
    )
    if (now !== revisionSetAside) throw new Refused({ kind: 'changed-meanwhile' })
    const triggers = database
      .prepare(`SELECT name, sql FROM main.sqlite_master WHERE type = 'trigger' AND sql IS NOT NULL`)
      .all() as { name: string; sql: string }[]
    for (const { name } of triggers) database.exec(`DROP TRIGGER main."${name}"`)
    const tables = tablesOf(database)
    for (const { name } of tables) database.exec(`DELETE FROM main."${name}"`)
    for (const { name, columns } of tables) {
      const picked = columns.map((column) => `"${column.name}"`).join(', ')
      database.exec(`INSERT INTO main."${name}" (${picked}) SELECT ${picked} FROM restored."${name}"`)
    }
    for (const { sql } of triggers) database.exec(sql)
    const then = Number(
      (database.prepare(`SELECT "number" AS n FROM main."Revision" WHERE "id" = 'main'`).get() as { n: number }).n,
    )
    const change = everything(Math.max(now, then) + 1)
    database.prepare(`UPDATE main."Revision" SET "number" = ? WHERE "id" = 'main'`).run(change.revision)
    database
      .prepare('INSERT INTO main."Change" ("id", "revision", "noun", "nounId") VALUES (?, ?, ?, ?)')
      .run(change.id, change.revision, change.noun, change.nounId)
    const broken = database.prepare('PRAGMA main.foreign_key_check').all() as { table: string }[]
    if (broken[0])
      throw new Refused({ kind: 'bad-backup', faults: [{ kind: 'broken-links', count: broken.length, table: broken[0].table }] })
    database.exec('COMMIT')
  } finally {
    if (database.inTransaction) database.exec('ROLLBACK')
    database.close()
  }
}

const rowsAtATime = 2_000

async function fillPostgresql(url: string, scratch: string, revisionSetAside: number): Promise<void> {
  const file: SqliteFile = new Libsql(scratch, { timeout: 10_000 })
  const client = new pg.Client({ connectionString: url })
  try {
    await client.connect()
    await client.query('BEGIN')
    await client.query(`SET LOCAL lock_timeout = '15s'`)
    const tables = tablesOf(file)
    const names = tables.map(({ name }) => `"${name}"`).join(', ')
    // Whoever writes is waited for, and nobody else reads or writes until this is over: half of it is never seen.
    await client.query(`LOCK TABLE ${names} IN ACCESS EXCLUSIVE MODE`)
    const number = async () => Number((await client.query(`SELECT "number" AS n FROM "Revision" WHERE "id" = 'main'`)).rows[0]?.n)
    const now = await number()
    if (now !== revisionSetAside) throw new Refused({ kind: 'changed-meanwhile' })
    // Rows may name rows that come later, so the links are taken off and put on again, which looks at every one of them.
    const { rows: links } = await client.query<{ table: string; name: string; says: string }>(
      `SELECT t.relname AS "table", c.conname AS name, pg_get_constraintdef(c.oid) AS says
         FROM pg_constraint c JOIN pg_class t ON t.oid = c.conrelid
        WHERE c.contype = 'f' AND t.relnamespace = current_schema()::regnamespace ORDER BY 1, 2`,
    )
    for (const { table, name } of links) await client.query(`ALTER TABLE "${table}" DROP CONSTRAINT "${name}"`)
    await client.query(`TRUNCATE ${names}`)
    for (const { name, columns } of tables) {
      const picked = columns.map((column) => `"${column.name}"`).join(', ')
      const insert = `INSERT INTO "${name}" (${picked}) SELECT ${picked} FROM jsonb_populate_recordset(NULL::"${name}", $1::jsonb)`
      let some: Record<string, unknown>[] = []
      for (const row of file.prepare(`SELECT ${picked} FROM "${name}"`).iterate() as Iterable<Record<string, unknown>>) {
        for (const { name: column, type } of columns)
          if (type === 'BOOLEAN' && row[column] !== null) row[column] = Boolean(row[column])
        some.push(row)
        if (some.length < rowsAtATime) continue
        await client.query(insert, [JSON.stringify(some)])
        some = []
      }
      if (some.length > 0) await client.query(insert, [JSON.stringify(some)])
    }
    for (const { table, name, says } of links) await client.query(`ALTER TABLE "${table}" ADD CONSTRAINT "${name}" ${says}`)
    const change = everything(Math.max(now, await number()) + 1)
    await client.query(`UPDATE "Revision" SET "number" = $1 WHERE "id" = 'main'`, [change.revision])
    await client.query('INSERT INTO "Change" ("id", "revision", "noun", "nounId") VALUES ($1, $2, $3, $4)', [
      change.id,
      change.revision,
      change.noun,
      change.nounId,
    ])
    await client.query('COMMIT')
  } finally {
    file.close()
    // What was not committed is gone with the connection.
    await client.end()
  }
}

/**
 * Set a database that does not read aside as it is, and put a fresh one in its place: for a restore onto a damaged collection, with the
 * program stopped. SQLite only. Killed in between, the damaged files stand whole in `aside`.
 */
export async function setDamagedAside(live: string, fresh: string, aside: string): Promise<void> {
  await mkdir(aside, { recursive: true })
  const files = [live, `${live}-wal`, `${live}-shm`]
  for (const file of files) {
    const target = path.join(aside, path.basename(file))
    await copyFile(file, target, constants.COPYFILE_EXCL | constants.COPYFILE_FICLONE).catch((error: NodeJS.ErrnoException) => {
      if (error.code !== 'ENOENT') throw error
    })
  }
  // Its companions first: a log of the old file must never be read into the new one.
  for (const file of files.slice(1)) await rm(file, { force: true })
  await rename(fresh, live)
  await syncFolder(path.dirname(live))
}
