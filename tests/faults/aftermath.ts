import { readdirSync } from 'node:fs'
import path from 'node:path'
import Libsql from 'libsql'
import { uploadsOf } from '#lib/archive/part-name'
import { weightOf } from '#lib/checking/fault'
import { lookAtArchive } from '#lib/db/archive/look-at-archive'
import { sweepDrafts } from '#lib/db/backup/backup-folder'
import { checkBackup } from '#lib/db/backup/check-backup'
import { openBackup } from '#lib/db/backup/open-backup'
import { checkCollection } from '#lib/db/checking/check-collection'
import { findFileFaults } from '#lib/db/checking/find-file-faults'
import { fileColumns, namedFilesSql } from '#lib/db/checking/named-files'
import { type Database, openDatabase } from '#lib/db/client'
import { each, readSnapshot } from '#lib/db/read-snapshot'
import { photoOfFile } from '#lib/photo/photo-name'
import { faultsInBooks } from '../database/stock-books'
import { readShape } from './shape'

/** By revision, the shape that whole writes left a collection in. */
export type Reference = ReadonlyMap<number, string>

const hourMs = 3_600_000

/** Where two shapes differ, in a few lines. */
const difference = (one: string, other: string): string => {
  const lines = new Set(other.split('\n'))
  return one
    .split('\n')
    .filter((line) => !lines.has(line))
    .slice(0, 6)
    .join('; ')
}

/**
 * What is wrong with a collection that was opened again after the process at work on it was killed, in words; nothing when all is well.
 * LARDER_DATA is the folder meanwhile.
 */
export async function faultsAfter(database: Database, folder: string, reference: Reference): Promise<string[]> {
  const faults: string[] = []
  const { prisma } = database
  if (database.engine === 'sqlite') {
    const file = new Libsql(database.url.replace(/^file:/, ''), { timeout: 5_000 })
    const says = file.prepare('PRAGMA quick_check(3)').all() as { quick_check: string }[]
    file.close()
    if (says[0]?.quick_check !== 'ok') faults.push(`the database: ${JSON.stringify(says)}`)
  }
  const { number: revision } = await prisma.revision.findUniqueOrThrow({ where: { id: 'main' } })
  if ((await prisma.change.count({ where: { revision: { gt: revision } } })) > 0) faults.push('changes of a write that was none')
  const shape = await readShape(database)
  const whole = reference.get(revision)
  if (whole === undefined) faults.push(`revision ${revision}, which no whole write leaves`)
  else if (whole !== shape)
    faults.push(`at revision ${revision} ${difference(shape, whole)} where it is ${difference(whole, shape)}`)
  faults.push(...(await faultsInBooks(prisma)))
  const checked = await checkCollection(database, { leaveOut: ['damage', 'answers'] })
  for (const fault of checked.faults) if (weightOf(fault.kind) === 'wrong') faults.push(`the check says ${JSON.stringify(fault)}`)
  if (!checked.isWhole) faults.push('the check was not whole')
  faults.push(...(await leftovers(database, folder)))
  return faults
}

/** Files that nobody names and nobody takes away. */
async function leftovers(database: Database, folder: string): Promise<string[]> {
  const faults: string[] = []
  const backups = path.join(folder, 'backups')
  // What is done before the next backup is written, or restored.
  for (const inside of [folder, backups]) await sweepDrafts(inside)
  const known = new Set<string>()
  await readSnapshot(database, async (rows) => {
    for (const column of fileColumns)
      for await (const [name] of each(rows, namedFilesSql(column)))
        for (const part of uploadsOf(column.folder, String(name))) known.add(part)
    // What the check names once it is old enough to be nobody's.
    for await (const fault of findFileFaults(rows, new Date(Date.now() + 26 * hourMs))) known.add(fault.about.id)
  })
  for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
    if (!entry.isFile()) continue
    const file = path.join(entry.parentPath, entry.name)
    const name = path.relative(folder, file).split(path.sep).join('/')
    if (known.has(name) || /^(?:larder|empty-\d+)\.db(?:-wal|-shm)?$/.test(name)) continue
    // Small ones whose photograph is told of go with it.
    if (known.has(photoOfFile(name))) continue
    // Staged files wait together, by the name before the first dot.
    if (known.has(name.split('.')[0] as string)) continue
    if (/^answers\/\w+\.needs$/.test(name)) continue
    // Forgotten on the way to the next one; old enough halves too.
    if (/^archives\/.*\.part$/.test(name)) continue
    if (/^archives\/.*\.zip$/.test(name)) {
      const looked = await lookAtArchive(file)
      if (!looked.ok) faults.push(`${name}: ${JSON.stringify(looked.error)}`)
    } else if (/^backups\/.*\.zip$/.test(name)) {
      const opened = await openBackup(file)
      if (opened.ok) opened.value.close()
      else faults.push(`${name}: ${JSON.stringify(opened.error)}`)
    } else if (name !== 'photo.png') faults.push(`${name} is left over`)
  }
  return faults
}

/** Databases a collection was brought back into: each has all of it, or nothing. */
export async function faultsBroughtBack(folder: string, shapes: { nothing: string; all: string }): Promise<string[]> {
  const faults: string[] = []
  for (const name of readdirSync(folder).filter((name) => /^empty-\d+\.db$/.test(name))) {
    const other = openDatabase(`file:${path.join(folder, name)}`)
    const shape = await readShape(other)
    if (shape !== shapes.nothing && shape !== shapes.all) faults.push(`${name} has ${difference(shape, shapes.all)}`)
    if (shape === shapes.all) faults.push(...(await faultsInBooks(other.prisma)))
    await other.prisma.$disconnect()
  }
  return faults
}

/** The newest backup, checked by being restored to a scratch place. */
export async function faultsOfBackups(folder: string): Promise<string[]> {
  const backups = path.join(folder, 'backups')
  const newest = readdirSync(backups)
    .filter((name) => name.endsWith('.zip'))
    .sort()
    .at(-1)
  if (newest === undefined) return []
  const check = await checkBackup(path.join(backups, newest))
  return check.isGood ? [] : [`${newest}: ${JSON.stringify(check.faults)}`]
}
