import 'server-only'
import { createHash, randomUUID } from 'node:crypto'
import { createWriteStream } from 'node:fs'
import { open, rename, stat, statfs } from 'node:fs/promises'
import path from 'node:path'
import { Readable, Transform } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import Libsql from 'libsql'
import { ZipFile } from 'yazl'
import { uploadPart } from '#lib/archive/part-name'
import { nameBackup } from '#lib/backup/backup-name'
import {
  type BackupKind,
  type BackupManifest,
  backupFormat,
  backupReadme,
  backupVersion,
  databaseName,
  manifestName,
  readmeName,
} from '#lib/backup/manifest'
import { ok, type Result, refused } from '#lib/result'
import { isPostgresqlUrl } from '../data-folder'
import { closeDraft, openDraft, sweepDrafts } from './backup-folder'
import { type BackupRefused, Refused, refusalOf } from './backup-refused'
import { copyDatabase, countRows, readHolds, sqlitePath, tablesOf } from './copy-database'
import { listUploads, sizeOf, uploadFolder } from './list-uploads'

export type BackupStep = 'copying' | 'packing' | 'checking' | 'setting-aside' | 'unpacking' | 'putting-in-place'
/** `of` is 0 where nobody knows how much there is. */
export type BackupProgress = { step: BackupStep; done: number; of: number }
export type ReportBackup = (progress: BackupProgress) => void

/** Left free on the disk beside what is written. */
const spareBytes = 16 * 1024 * 1024
/** PNG, JPEG, WebP and PDF are pressed already. */
const pressedLevel = 0

/**
 * Make one backup of database and uploads together, consistent while in use: the database is copied as it stands at one moment, and every
 * file a row of that moment names was on the disk before the row and stays there. It is written in a folder of its own, and only when it
 * is whole and on the disk does it get its name.
 */
export async function writeBackup(input: {
  url: string
  folder: string
  kind: BackupKind
  at?: Date
  report?: ReportBackup
}): Promise<Result<{ name: string }, BackupRefused>> {
  const { url, folder, kind, at = new Date(), report = () => {} } = input
  await sweepDrafts(folder)
  let draft: string | null = null
  try {
    await holdRoom(url, folder)
    draft = await openDraft(folder)
    const copy = path.join(draft, databaseName)
    report({ step: 'copying', done: 0, of: 0 })
    await copyDatabase(url, copy, (done) => report({ step: 'copying', done, of: 0 }))
    const zip = path.join(draft, 'backup.zip')
    await pack(zip, { copy, kind, at, engine: isPostgresqlUrl(url) ? 'postgresql' : 'sqlite', report })
    await syncFile(zip)
    const name = nameBackup(at, kind, randomUUID().slice(0, 4))
    await rename(zip, path.join(folder, name))
    await syncFolder(folder)
    return ok({ name })
  } catch (error) {
    if (error instanceof Refused) return refused(error.refusal)
    const refusal = refusalOf(error, folder)
    if (refusal) return refused(refusal)
    throw error
  } finally {
    if (draft !== null) await closeDraft(draft)
  }
}

/** @throws {Refused} where the disk cannot take the copy and the packed one beside each other */
async function holdRoom(url: string, folder: string): Promise<void> {
  const uploads = await listUploads()
  const databaseBytes = isPostgresqlUrl(url) ? 0 : await sizeOf(sqlitePath(url))
  const needBytes = 2 * databaseBytes + uploads.reduce((sum, { bytes }) => sum + bytes, 0) + spareBytes
  const { bavail, bsize } = await statfs(folder)
  if (bavail * bsize < needBytes) throw new Refused({ kind: 'disk-full', folder, needBytes })
}

async function pack(
  file: string,
  made: { copy: string; kind: BackupKind; at: Date; engine: BackupManifest['engine']; report: ReportBackup },
): Promise<void> {
  const { copy, kind, at, engine, report } = made
  // After the copy: a file that a row of it names is among these.
  const uploads = await listUploads()
  const manifest: BackupManifest = {
    ...{ format: backupFormat, version: backupVersion, madeAt: at.toISOString(), kind, engine },
    ...readFacts(
      copy,
      uploads.map(({ folder, name }) => uploadPart(folder, name)),
    ),
    parts: [],
  }
  const databaseBytes = (await stat(copy)).size
  const of = databaseBytes + uploads.reduce((sum, { bytes }) => sum + bytes, 0)
  let done = 0
  const zip = new ZipFile()
  const failed = new Promise<never>((_, reject) => zip.on('error', reject))
  const written = pipeline(zip.outputStream, createWriteStream(file, { flags: 'wx' }))
  // Whichever ends first is heard below.
  failed.catch(() => {})
  written.catch(() => {})
  const add = async (name: string, from: string, compressionLevel: number) => {
    const handle = await open(from, 'r').catch((error: NodeJS.ErrnoException) => {
      // Taken off again since it was listed: no row named it.
      if (error.code === 'ENOENT') return null
      throw error
    })
    if (handle === null) return
    const hash = createHash('sha256')
    let bytes = 0
    const seen = new Transform({
      transform(chunk: Buffer, _, next) {
        hash.update(chunk)
        bytes += chunk.length
        done += chunk.length
        report({ step: 'packing', done, of })
        next(null, chunk)
      },
    })
    const size = (await handle.stat()).size
    const through = pipeline(handle.createReadStream(), seen)
    zip.addReadStream(seen, name, { mtime: at, mode: 0o100644, size, compressionLevel, compress: compressionLevel > 0 })
    await Promise.race([through, failed, written.then(() => Promise.reject(new Error('pack: the ZIP ended early')))])
    manifest.parts.push({ name, bytes, sha256: hash.digest('hex') })
  }
  zip.addBuffer(Buffer.from(backupReadme(at.toISOString())), readmeName, { mtime: at, mode: 0o100644 })
  await add(databaseName, copy, 6)
  for (const { folder, name } of uploads) await add(uploadPart(folder, name), path.join(uploadFolder(folder), name), pressedLevel)
  zip.addReadStream(Readable.from([JSON.stringify(manifest)]), manifestName, { mtime: at, mode: 0o100644 })
  zip.end()
  await Promise.race([written, failed])
}

/** What the manifest says of the database inside. */
function readFacts(
  copy: string,
  uploads: readonly string[],
): Pick<BackupManifest, 'revision' | 'lastChangeId' | 'migration' | 'counts' | 'holds'> {
  const database = new Libsql(copy, { timeout: 5_000 })
  try {
    const one = (sql: string) => database.prepare(sql).get() as Record<string, unknown> | undefined
    const counts = Object.fromEntries(tablesOf(database).map(({ name }) => [name, countRows(database, `"${name}"`)]))
    const change = one('SELECT "id" FROM "Change" ORDER BY "revision" DESC, "id" DESC LIMIT 1')
    const migration = one('SELECT max(migration_name) AS name FROM "_prisma_migrations" WHERE rolled_back_at IS NULL')
    return {
      revision: Number(one(`SELECT "number" AS n FROM "Revision" WHERE "id" = 'main'`)?.n ?? 0),
      lastChangeId: change ? String(change.id) : null,
      migration: String(migration?.name ?? ''),
      counts,
      holds: readHolds(database, uploads),
    }
  } finally {
    database.close()
  }
}

async function syncFile(file: string): Promise<void> {
  const handle = await open(file, 'r+')
  try {
    await handle.sync()
  } finally {
    await handle.close()
  }
}

/** So that the name outlives a power cut too; where folders cannot be opened, the file system sees to it. */
export async function syncFolder(folder: string): Promise<void> {
  const handle = await open(folder, 'r').catch(() => null)
  await handle?.sync().catch(() => {})
  await handle?.close()
}
