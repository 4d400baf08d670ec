import 'server-only'
import { readdir, stat } from 'node:fs/promises'
import path from 'node:path'
import { isUploadName, keptFolders, uploadPart, uploadsOf } from '#lib/archive/part-name'
import type { Concerned, Fault } from '#lib/checking/fault'
import { photoOfFile, thumbName } from '#lib/photo/photo-name'
import { uploadFolder } from '../backup/list-uploads'
import { text } from '../cells'
import { dataFolder } from '../data-folder'
import { each, type ReadRows } from '../read-snapshot'
import { type FileColumn, fileColumns, namedFilesSql } from './named-files'
import { concerned, nameColumns } from './thing-names'

const hourMs = 3_600_000
const dayMs = 24 * hourMs
/** A file is written before the row that names it: younger ones may be waiting for it. */
const unnamedAfterMs = hourMs
/** A half-written file that nobody has gone on with for so long is nobody's. */
const halfAfterMs = dayMs
/** What is kept for a day goes when the next one comes; with an hour to spare it should be gone. */
const stagedAfterMs = dayMs + hourMs
const idsAtATime = 500

/** Where uploads wait for a day to be looked through, or are half written. */
const stagedFolders = ['to-bring-in', 'to-read'] as const

/** A file in the data folder: its name there, how large it is and when it was last written. */
type OnDisk = { name: string; bytes: number; modifiedMs: number }

/** Small enough a number at once that a slow disk is not asked for everything together. */
async function listFolder(folder: string): Promise<OnDisk[]> {
  const names = await readdir(folder).catch(() => [] as string[])
  const found: OnDisk[] = []
  for (const name of names.sort()) {
    const known = await stat(path.join(folder, name)).catch(() => null)
    if (known?.isFile()) found.push({ name, bytes: known.size, modifiedMs: known.mtimeMs })
  }
  return found
}

/** Whose file a column names, `thing` being the row a person knows. */
const ownerOfColumn = {
  ClothPiece: { noun: 'cloth', from: '"ClothPiece" thing', id: 'thing."id"' },
  Chart: { noun: 'chart', from: '"Chart" thing', id: 'thing."id"' },
  Notion: { noun: 'notion', from: '"Notion" thing', id: 'thing."id"' },
  Project: { noun: 'project', from: '"Project" thing', id: 'thing."id"' },
  WorkEntry: { noun: 'project', from: '"WorkEntry" row JOIN "Project" thing ON thing."id" = row."projectId"', id: 'row."id"' },
} as const

async function readAbout(rows: ReadRows, table: string, ids: readonly string[]): Promise<Map<string, Concerned>> {
  const found = new Map<string, Concerned>()
  const owner = ownerOfColumn[table as keyof typeof ownerOfColumn]
  for (let at = 0; at < ids.length; at += idsAtATime) {
    const some = ids.slice(at, at + idsAtATime)
    const marks = some.map(() => '?').join(', ')
    const sql = owner
      ? `SELECT ${owner.id} AS "rowId", ${nameColumns(owner.noun).join(', ')}, thing."id" AS "id" FROM ${owner.from} WHERE ${owner.id} IN (${marks})`
      : `SELECT "id" AS "rowId", "name" AS "thingName", "chartId" AS "thingLink", "id" AS "id" FROM "KeptFile" WHERE "id" IN (${marks})`
    for await (const [rowId, name, link, id] of each(rows, sql, some))
      found.set(
        text(rowId),
        owner
          ? concerned(table === 'WorkEntry' ? 'work' : owner.noun, table === 'WorkEntry' ? rowId : id, name, link)
          : concerned('kept-file', rowId, name, link),
      )
  }
  return found
}

export type FilesLookedAt = { files: number }

/**
 * Files that rows name and that are not there, photographs without their small one, and files nothing names, that were half written, or
 * whose day is over.
 *
 * @param at  now
 */
export async function* findFileFaults(
  rows: ReadRows,
  at: Date,
  looked: FilesLookedAt = { files: 0 },
): AsyncGenerator<Fault, void, void> {
  const named = new Set<string>()
  const onDisk = new Map<string, OnDisk>()
  const folders = new Map(
    await Promise.all(keptFolders.map(async (kept) => [kept, await listFolder(uploadFolder(kept))] as const)),
  )
  for (const [kept, files] of folders) for (const file of files) onDisk.set(uploadPart(kept, file.name), file)
  looked.files = onDisk.size
  for (const column of fileColumns) yield* findMissing(rows, column, named, onDisk)

  for (const [kept, files] of folders)
    for (const { name, bytes, modifiedMs } of files) {
      const part = uploadPart(kept, name)
      const age = at.getTime() - modifiedMs
      const about = { noun: 'disk', id: part, name: part, linkId: null } as const
      if (named.has(part)) continue
      if (name.endsWith('.part')) {
        if (age > halfAfterMs) yield { kind: 'half-written', id: `half-written:${part}`, about, bytes }
        continue
      }
      // The small ones go with their photo.
      const large = photoOfFile(name)
      const isWithPhoto = large !== name && isUploadName(kept, large) && onDisk.has(uploadPart(kept, large))
      if (age > unnamedAfterMs && !isWithPhoto) yield { kind: 'file-unnamed', id: `file-unnamed:${part}`, about, bytes }
    }
  for (const folder of stagedFolders) yield* findStaged(`uploads/${folder}`, at)
  for (const { name, bytes, modifiedMs } of await listFolder(path.join(dataFolder(), 'answers'))) {
    const id = `answers/${name}`
    if (name.endsWith('.part') && at.getTime() - modifiedMs > halfAfterMs)
      yield { kind: 'half-written', id: `half-written:${id}`, about: { noun: 'disk', id, name: id, linkId: null }, bytes }
  }
}

async function* findMissing(
  rows: ReadRows,
  column: FileColumn,
  named: Set<string>,
  onDisk: ReadonlyMap<string, OnDisk>,
): AsyncGenerator<Fault, void, void> {
  const { table, folder } = column
  const [missing, bare]: [Map<string, string>, Map<string, string>] = [new Map(), new Map()]
  for await (const row of each(rows, namedFilesSql(column))) {
    const [name, id] = [text(row[0]), text(row[1])]
    for (const part of uploadsOf(folder, name)) named.add(part)
    if (!onDisk.has(uploadPart(folder, name))) missing.set(id, name)
    else if (folder === 'photos' && !onDisk.has(uploadPart(folder, thumbName(name)))) bare.set(id, name)
  }
  // A file that was taken off its thing may be gone for good.
  const gone = new Set<string>()
  if (table === 'KeptFile' && missing.size > 0)
    for await (const [id] of each(rows, 'SELECT "id" FROM "KeptFile" WHERE "goneAt" IS NOT NULL')) gone.add(text(id))
  const about = await readAbout(rows, table, [...missing.keys(), ...bare.keys()])
  for (const [id, file] of missing) {
    const whose = about.get(id)
    if (whose && !gone.has(id))
      yield {
        ...{ kind: 'file-missing', id: `file-missing:${table}.${id}`, about: whose, table, column: column.column },
        ...{ file, folder },
      }
  }
  for (const [id, file] of bare) {
    const whose = about.get(id)
    if (whose) yield { kind: 'thumb-missing', id: `thumb-missing:${table}.${id}`, about: whose, file }
  }
}

/** What waits under one name is a few files; they go together once none was touched for a day. */
async function* findStaged(folder: string, at: Date): AsyncGenerator<Fault, void, void> {
  const groups = new Map<string, OnDisk>()
  for (const { name, bytes, modifiedMs } of await listFolder(path.join(dataFolder(), folder))) {
    const group = name.split('.')[0] as string
    const known = groups.get(group) ?? { name: group, bytes: 0, modifiedMs: 0 }
    groups.set(group, { name: group, bytes: known.bytes + bytes, modifiedMs: Math.max(known.modifiedMs, modifiedMs) })
  }
  for (const { name, bytes, modifiedMs } of groups.values()) {
    const id = `${folder}/${name}`
    if (at.getTime() - modifiedMs > stagedAfterMs)
      yield { kind: 'staged-old', id: `staged-old:${id}`, about: { noun: 'disk', id, name: id, linkId: null }, bytes }
  }
}

/** Whether a fault of a file is there still, asked about that file alone; null for a fault of another kind. */
export async function isFileFaultThere(fault: Fault, rows: ReadRows): Promise<boolean | null> {
  const isOnDisk = (part: string) =>
    stat(path.join(dataFolder(), part)).then(
      (found) => found.isFile(),
      () => false,
    )
  switch (fault.kind) {
    case 'file-missing': {
      if (await isOnDisk(uploadPart(fault.folder, fault.file))) return false
      const isKept = fault.table === 'KeptFile' ? ' AND "goneAt" IS NULL' : ''
      const sql = `SELECT "${fault.column}" AS "name" FROM "${fault.table}" WHERE "id" = ?${isKept}`
      for await (const [name] of each(rows, sql, [fault.about.id])) return name === fault.file
      return false
    }
    case 'thumb-missing':
      return (await isOnDisk(uploadPart('photos', fault.file))) && !(await isOnDisk(uploadPart('photos', thumbName(fault.file))))
    case 'half-written':
    case 'file-unnamed': {
      if (!(await isOnDisk(fault.about.id))) return false
      const name = photoOfFile(path.basename(fault.about.id))
      for (const { table, column } of fileColumns)
        for await (const _ of each(rows, `SELECT "id" FROM "${table}" WHERE "${column}" = ?`, [name])) return false
      return true
    }
    case 'staged-old': {
      const folder = path.posix.dirname(fault.about.id)
      for await (const found of findStaged(folder, new Date())) if (found.id === fault.id) return true
      return false
    }
    default:
      return null
  }
}
