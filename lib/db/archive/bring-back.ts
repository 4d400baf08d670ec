import 'server-only'
import { createWriteStream } from 'node:fs'
import { mkdir, rename, rm, stat, statfs } from 'node:fs/promises'
import path from 'node:path'
import { pipeline } from 'node:stream/promises'
import { findPart, type KeptFolder, uploadsOf } from '#lib/archive/part-name'
import { type ArchiveRow, folderOfKind } from '#lib/archive/read-row'
import type { ArchiveRefused } from '#lib/archive/refusal'
import { type ArchiveTable, archiveTables } from '#lib/archive/tables'
import { ok, type Result, refused } from '#lib/result'
import { uploadFolder } from '../backup/list-uploads'
import { bulkInsert, timestamp } from '../bulk-insert'
import type { Database } from '../client'
import { dataFolder } from '../data-folder'
import { type Write, writeTo } from '../write-gate'
import { heldHere, ownTables } from './held-here'
import { type OpenedArchive, openArchive, PartAltered } from './open-archive'
import { ArchiveUnreadable, readTable } from './read-table'
import type { ArchiveProgress } from './write-archive'

export type BroughtBack = { rowCount: number; uploadCount: number; missing: string[]; madeAt: Date }

type Options = {
  /** The ZIP. */
  file: string
  signal?: AbortSignal
  report?: (progress: ArchiveProgress) => void
}

/** A chain of shops takes minutes; the write lock is held for as long. */
const timeoutMs = 3 * 60 * 60_000

/**
 * Bring a whole collection back from an archive to where there is none: the same rows with the same ids, and its files.
 *
 * All rows go in with one transaction, which the last file precedes; whatever does not fit, by the manifest, the format or the database's
 * own checks, refuses the whole, and files written by then are taken away again. Owners without anything and settings that are there
 * already give way to the archive's.
 */
export async function bringBack(database: Database, options: Options): Promise<Result<BroughtBack, ArchiveRefused>> {
  const opened = await openArchive(options.file)
  if (!opened.ok) return opened
  const archive = opened.value
  const written: string[] = []
  try {
    const result = await writeTo(database, (write) => carryIn(write, archive, options, written), timeoutMs)
    if (!result.ok) await sweep(written)
    return result
  } catch (error) {
    await sweep(written)
    if (options.signal?.aborted) return refused({ kind: 'stopped' })
    if (error instanceof ArchiveUnreadable) return refused(error.refusal)
    if (error instanceof PartAltered) return refused({ kind: 'part-altered', path: error.path })
    throw error
  } finally {
    archive.close()
  }
}

async function carryIn(
  write: Write,
  archive: OpenedArchive,
  { signal, report = () => {} }: Options,
  written: string[],
): Promise<Result<BroughtBack, ArchiveRefused>> {
  const { tx } = write
  const held = await heldHere(tx)
  if (held.length > 0) return refused({ kind: 'not-empty', held })
  for (const table of ownTables) await tx.$executeRawUnsafe(`DELETE FROM "${table}"`)

  const { manifest } = archive
  const of = manifest.parts.reduce((sum, { path: name, rows = 0 }) => sum + (findPart(name)?.kind === 'table' ? rows : 0), 0)
  const missing = new Set(manifest.missing)
  const named = new Set<string>()
  let rowCount = 0
  report({ step: 'rows', done: 0, of })
  for (const table of archiveTables) {
    const later = table.later ?? []
    const filed = Object.entries(table.columns).flatMap(([column, kind]) => {
      const folder = folderOfKind(kind)
      return folder ? [{ column, folder }] : []
    })
    for await (const rows of readTable(archive, table)) {
      signal?.throwIfAborted()
      const fitting = await insert(write, table, rows, later)
      if (!fitting) return refused({ kind: 'rows-do-not-fit', table: table.name })
      for (const { column, folder } of filed)
        for (const row of rows) {
          const name = row[column]
          if (typeof name === 'string') for (const part of uploadsOf(folder, name)) named.add(part)
        }
      rowCount += rows.length
      report({ step: 'rows', done: rowCount, of })
    }
  }
  // What is inside, cut from or kept for something that stands further down: now it is there.
  for (const table of archiveTables)
    if (table.later && !(await fillLater(write, archive, table, table.later)))
      return refused({ kind: 'rows-do-not-fit', table: table.name })

  for (const name of named) if (!archive.has(name) && !missing.has(name)) return refused({ kind: 'part-missing', path: name })
  const uploads = manifest.parts.flatMap(({ path: name, bytes }) => {
    const part = findPart(name)
    return part?.kind === 'upload' ? [{ path: name, bytes, folder: part.folder, name: part.name }] : []
  })
  const roomFault = await findNoRoom(uploads.reduce((sum, { bytes }) => sum + bytes, 0))
  if (roomFault) return refused(roomFault)
  for (const [at, upload] of uploads.entries()) {
    signal?.throwIfAborted()
    await carryFile(archive, upload, written)
    report({ step: 'files', done: at + 1, of: uploads.length })
  }
  // The sheets and the description are for people, and are as the manifest says all the same.
  for (const part of manifest.parts) {
    const kind = findPart(part.path)?.kind
    if (kind !== 'csv' && kind !== 'readme') continue
    for await (const _ of archive.read(part.path)) signal?.throwIfAborted()
  }

  // Movements and walks carry revisions: the collection goes on from the highest of them.
  if (manifest.revision > write.revision) await tx.revision.update({ where: { id: 'main' }, data: { number: manifest.revision } })
  write.touch('everything', '*')
  return ok({ rowCount, uploadCount: uploads.length, missing: manifest.missing, madeAt: new Date(manifest.madeAt) })
}

/** @returns false when the database refuses a row */
async function insert(
  { tx, engine }: Write,
  table: ArchiveTable,
  rows: ArchiveRow[],
  later: readonly string[],
): Promise<boolean> {
  const moments = Object.entries(table.columns).flatMap(([column, kind]) => (kind.startsWith('moment') ? [column] : []))
  const changed = [...moments, ...later].length > 0
  const fresh = changed
    ? rows.map((row) => {
        const own = { ...row }
        for (const column of moments) if (typeof own[column] === 'string') own[column] = timestamp(new Date(own[column]))
        for (const column of later) own[column] = null
        return own
      })
    : rows
  return fits(() => bulkInsert(tx, engine, table.name, fresh))
}

/** Read the table again for the columns that had to wait. */
async function fillLater(write: Write, archive: OpenedArchive, table: ArchiveTable, later: readonly string[]): Promise<boolean> {
  const [key] = table.key
  const columns = [key as string, ...later]
  const names = later.map((column) => `"${column}" = v."${column}"`).join(', ')
  const source =
    write.engine === 'sqlite'
      ? `(SELECT ${columns.map((column) => `value->>'$.${column}' AS "${column}"`).join(', ')} FROM json_each(?)) AS v`
      : `jsonb_to_recordset($1::jsonb) AS v(${columns.map((column) => `"${column}" text`).join(', ')})`
  for await (const rows of readTable(archive, table)) {
    const some = rows.filter((row) => later.some((column) => row[column] !== null))
    if (some.length === 0) continue
    const given = JSON.stringify(some.map((row) => Object.fromEntries(columns.map((column) => [column, row[column]]))))
    const sql = `UPDATE "${table.name}" SET ${names} FROM ${source} WHERE "${table.name}"."${key}" = v."${key}"`
    if (!(await fits(() => write.tx.$executeRawUnsafe(sql, given)))) return false
  }
  return true
}

/** What a database says of a row that cannot be, on either engine; anything else is no fault of the archive's. */
const misfit = /constraint|violates|out of range|not present in table|invalid input|unsupported Unicode|datatype mismatch/i

async function fits(statement: () => Promise<unknown>): Promise<boolean> {
  try {
    await statement()
    return true
  } catch (error) {
    if (misfit.test(String((error as Error).message))) return false
    throw error
  }
}

async function findNoRoom(wantsBytes: number): Promise<ArchiveRefused | null> {
  if (wantsBytes === 0) return null
  await mkdir(dataFolder(), { recursive: true })
  const { bavail, bsize } = await statfs(dataFolder())
  const freeBytes = bavail * bsize
  return freeBytes < wantsBytes ? { kind: 'no-room', wantsBytes, freeBytes } : null
}

async function carryFile(
  archive: OpenedArchive,
  { path: part, folder, name }: { path: string; folder: KeptFolder; name: string },
  written: string[],
): Promise<void> {
  const target = path.join(uploadFolder(folder), name)
  const wasThere = await stat(target).then(
    () => true,
    () => false,
  )
  await mkdir(path.dirname(target), { recursive: true })
  written.push(`${target}.part`)
  await pipeline(archive.read(part), createWriteStream(`${target}.part`))
  await rename(`${target}.part`, target)
  // One that was there before goes on being there, whatever becomes of this.
  if (!wasThere) written.push(target)
}

const sweep = async (files: readonly string[]): Promise<void> => {
  await Promise.all(files.map((file) => rm(file, { force: true })))
}
