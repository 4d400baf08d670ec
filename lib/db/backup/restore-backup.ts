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
import { isOfTheMoment, onRestore } from '#lib/backup/kept-here'
import { databaseName } from '#lib/backup/manifest'
import { ok, type Result, refused } from '#lib/result'
import { dataFolder, isPostgresqlUrl } from '../data-folder'
import { newId } from '../new-id'
import { revisionNotice } from '../write-gate'
import { closeDraft, openDraft, sweepDrafts } from './backup-folder'
import { type BackupRefused, Refused, refusalOf } from './backup-refused'
import { lookThrough } from './check-backup'
import { type SqliteFile, sqlitePath, tablesOf } from './copy-database'
import { type OpenBackup, openBackup } from './open-backup'
import { fillTable, namesOf, type Table, takeLinksOff } from './postgresql-rows'
import { type ReportBackup, syncFolder, writeBackup } from './write-backup'

/**
 * Put the collection of a backup in the place of the one that is there.
 *
 * The backup is restored to a scratch place and checked; the present collection is set aside as a backup of its own; the files are laid
 * beside those that are there, since each has a name of its own for good; then, in one transaction, every row goes and the backup's rows
 * come. Killed at any moment, the database has either all of the old or all of the new, and the files for both.
 *
 * Accounts that are here stay as they are, with their devices and tokens; where there are none, those of the backup come.
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

/** An account that stays may have seen the goods of an owner who went. */
const withoutOwner = `DELETE FROM "AccountOwner" WHERE "ownerId" NOT IN (SELECT "id" FROM "Owner")`

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
    const hasAccounts = database.prepare('SELECT 1 FROM main."Account" LIMIT 1').get() !== undefined
    for (const table of tablesOf(database)) {
      const [into, picked, becomes] = [`main."${table.name}"`, namesOf(table), onRestore(table.name, hasAccounts)]
      if (becomes === 'left') continue
      if (becomes === 'replaced') database.exec(`DELETE FROM ${into}`)
      const orIgnore = becomes === 'added to' ? 'OR IGNORE' : ''
      database.exec(`INSERT ${orIgnore} INTO ${into} (${picked}) SELECT ${picked} FROM restored."${table.name}"`)
    }
    database.exec(withoutOwner)
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

async function fillPostgresql(url: string, scratch: string, revisionSetAside: number): Promise<void> {
  const file: SqliteFile = new Libsql(scratch, { timeout: 10_000 })
  const client = new pg.Client({ connectionString: url })
  try {
    await client.connect()
    await client.query('BEGIN')
    await client.query(`SET LOCAL lock_timeout = '15s'`)
    const tables = tablesOf(file).filter(({ name }) => !isOfTheMoment(name))
    const listed = (some: readonly Table[]) => some.map(({ name }) => `"${name}"`).join(', ')
    // Whoever writes is waited for, and nobody else reads or writes until this is over: half of it is never seen.
    await client.query(`LOCK TABLE ${listed(tables)} IN ACCESS EXCLUSIVE MODE`)
    const number = async () => Number((await client.query(`SELECT "number" AS n FROM "Revision" WHERE "id" = 'main'`)).rows[0]?.n)
    const now = await number()
    if (now !== revisionSetAside) throw new Refused({ kind: 'changed-meanwhile' })
    const hasAccounts = (await client.query('SELECT 1 FROM "Account" LIMIT 1')).rows.length > 0
    const becoming = (what: ReturnType<typeof onRestore>) => tables.filter(({ name }) => onRestore(name, hasAccounts) === what)
    const putLinksOn = await takeLinksOff(client)
    await client.query(`TRUNCATE ${listed(becoming('replaced'))}`)
    for (const table of becoming('replaced')) await fillTable(client, file, table)
    for (const table of becoming('added to')) await fillTable(client, file, table, { otherwise: 'ON CONFLICT DO NOTHING' })
    await client.query(withoutOwner)
    await putLinksOn()
    const change = everything(Math.max(now, await number()) + 1)
    await client.query(`UPDATE "Revision" SET "number" = $1 WHERE "id" = 'main'`, [change.revision])
    await client.query('INSERT INTO "Change" ("id", "revision", "noun", "nounId") VALUES ($1, $2, $3, $4)', [
      change.id,
      change.revision,
      change.noun,
      change.nounId,
    ])
    await client.query('SELECT pg_notify($1, $2)', [revisionNotice, String(change.revision)])
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
