import 'server-only'
import { readdir, rm, stat } from 'node:fs/promises'
import path from 'node:path'
import { isBackupName, isBroughtInName } from '#lib/backup/backup-name'
import type { BackupCheck } from '#lib/backup/check'
import type { BackupKind, BackupManifest } from '#lib/backup/manifest'
import { type BackupStanding, planRotation } from '#lib/backup/rotation'
import { log } from '#lib/log/log'
import { calendarDay } from '#lib/quantity/day'
import { requireWhole } from '../access/whole'
import { backupFolderPath } from './backup-folder'
import { getBackupSettings, readJson, writeJson } from './backup-settings'
import { openBackup } from './open-backup'

export type BackupListed = {
  name: string
  bytes: number
  madeAt: Date
  kind: BackupKind
  isBroughtIn: boolean
  /** Null while nobody looked. */
  check: BackupCheck | null
}

/** What a check found, kept beside the backup; it holds for that file only while it has that size and time. */
type KeptCheck = { bytes: number; modifiedMs: number; check: BackupCheck }

const checkFile = (file: string): string => `${file}.check.json`

// Manifests do not change while their file does not.
const shared = globalThis as unknown as { larderBackupManifests?: Map<string, Omit<BackupManifest, 'parts'> | null> }
shared.larderBackupManifests ??= new Map()
const manifests = shared.larderBackupManifests

/** Where a backup's file is, by a name that `isBackupName` takes; null when there is none. */
export async function findBackupFile(name: string): Promise<{ file: string; bytes: number } | null> {
  requireWhole()
  if (!isBackupName(name)) return null
  const file = path.join(await backupFolderPath(), name)
  const found = await stat(file).catch(() => null)
  return found?.isFile() ? { file, bytes: found.size } : null
}

/** What its manifest says; null when it does not open as a backup. */
export async function readManifest(file: string): Promise<Omit<BackupManifest, 'parts'> | null> {
  const { size, mtimeMs } = await stat(file)
  const key = `${file}\n${size}\n${mtimeMs}`
  const known = manifests.get(key)
  if (known !== undefined) return known
  const opened = await openBackup(file)
  if (opened.ok) opened.value.close()
  const read = opened.ok ? (({ parts: _, ...rest }) => rest)(opened.value.manifest) : null
  if (manifests.size > 1_000) manifests.clear()
  manifests.set(key, read)
  return read
}

/** The backups in the folder, newest first; none when the folder is not there. */
export async function listBackups(): Promise<BackupListed[]> {
  const folder = await backupFolderPath()
  const names = (await readdir(folder).catch(() => [] as string[])).filter(isBackupName)
  const listed = await Promise.all(names.map((name) => readListed(folder, name)))
  return listed
    .filter((one) => one !== null)
    .sort((a, b) => b.madeAt.getTime() - a.madeAt.getTime() || (a.name < b.name ? 1 : -1))
}

export const findBackup = async (name: string): Promise<BackupListed | null> =>
  (await findBackupFile(name)) && readListed(await backupFolderPath(), name)

async function readListed(folder: string, name: string): Promise<BackupListed | null> {
  const file = path.join(folder, name)
  const found = await stat(file).catch(() => null)
  if (!found?.isFile()) return null
  const manifest = await readManifest(file).catch(() => null)
  const kept = (await readJson(checkFile(file)).catch(() => null)) as KeptCheck | null
  const isOfThis = kept !== null && kept.bytes === found.size && kept.modifiedMs === found.mtimeMs
  const torn: BackupCheck = {
    isGood: false,
    at: found.mtime.toISOString(),
    faults: [{ kind: 'not-a-backup' }],
    canRestore: false,
  }
  return {
    name,
    bytes: found.size,
    madeAt: manifest ? new Date(manifest.madeAt) : found.mtime,
    kind: manifest?.kind ?? 'asked',
    isBroughtIn: isBroughtInName(name),
    check: isOfThis ? kept.check : manifest === null ? torn : null,
  }
}

/** Keep what a check found beside the backup. Where that cannot be written, the backup counts as unchecked. */
export async function keepCheck(file: string, check: BackupCheck): Promise<void> {
  const { size, mtimeMs } = await stat(file)
  const kept: KeptCheck = { bytes: size, modifiedMs: mtimeMs, check }
  await writeJson(checkFile(file), kept).catch((error) => log.error('what a check found could not be kept', { error }))
}

/** Take a backup away. @returns false when there is none of that name */
export async function removeBackup(name: string): Promise<boolean> {
  requireWhole()
  const found = await findBackupFile(name)
  if (found === null) return false
  await rm(found.file)
  await rm(checkFile(found.file), { force: true })
  return true
}

export const standingOf = ({ name, madeAt, check, kind, isBroughtIn }: BackupListed): BackupStanding => ({
  ...{ name, kind, isBroughtIn, day: calendarDay(madeAt), madeMs: madeAt.getTime() },
  check: check === null ? 'unchecked' : check.isGood ? 'good' : 'bad',
})

/** Take away what the rotation does not keep. Nothing goes while the newest one is not known to be good. @returns the names that went */
export async function rotateBackups(): Promise<string[]> {
  const backups = (await listBackups()).map(standingOf)
  const { keeping } = await getBackupSettings()
  const gone = planRotation(backups, keeping)
  for (const name of gone) await removeBackup(name)
  return gone
}
