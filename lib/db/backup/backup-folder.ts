import 'server-only'
import { createHash } from 'node:crypto'
import { access, constants, mkdir, readdir, realpath, rm, stat, writeFile } from 'node:fs/promises'
import { hostname } from 'node:os'
import path from 'node:path'
import { ok, type Result, refused } from '#lib/result'
import { dataFolder } from '../data-folder'
import type { BackupRefused } from './backup-refused'
import { getBackupSettings } from './backup-settings'

/** Lies in a folder that was chosen, so that an empty mount point of the same name is not taken for it. */
const markName = 'chart-larder-backups.txt'
const markText = 'Chart Larder keeps its backups in this folder. While this file is here, it knows the folder again.\n'

export const usualFolder = (): string => path.join(dataFolder(), 'backups')

/** The folder backups are kept in, there and fit to be written to. */
export async function openBackupFolder(): Promise<Result<string, BackupRefused>> {
  const { folder } = await getBackupSettings()
  if (folder === null) {
    const usual = usualFolder()
    try {
      await mkdir(usual, { recursive: true })
      await access(usual, constants.W_OK)
      return ok(usual)
    } catch {
      return refused({ kind: 'folder-not-writable', folder: usual })
    }
  }
  if (!(await isFolder(folder))) return refused({ kind: 'folder-missing', folder })
  if (!(await isThere(path.join(folder, markName)))) return refused({ kind: 'folder-not-ours', folder })
  try {
    await access(folder, constants.W_OK)
    return ok(folder)
  } catch {
    return refused({ kind: 'folder-not-writable', folder })
  }
}

/** Where they lie, there or not: for reading what is there. */
export const backupFolderPath = async (): Promise<string> => (await getBackupSettings()).folder ?? usualFolder()

/** Put the mark into a folder that somebody chooses. */
export async function markFolder(folder: string): Promise<Result<null, BackupRefused>> {
  if (!path.isAbsolute(folder) || !(await isFolder(folder))) return refused({ kind: 'folder-missing', folder })
  try {
    await writeFile(path.join(folder, markName), markText)
    return ok(null)
  } catch {
    return refused({ kind: 'folder-not-writable', folder })
  }
}

const isFolder = (folder: string): Promise<boolean> =>
  stat(folder).then(
    (found) => found.isDirectory(),
    () => false,
  )
const isThere = (file: string): Promise<boolean> =>
  stat(file).then(
    () => true,
    () => false,
  )

/** Whether backups lie on the disk the collection is on, and go with it when it fails. Null where one of the two is not there. */
export async function isOnSameDisk(): Promise<boolean | null> {
  try {
    const [data, backups] = await Promise.all([
      realpath(dataFolder()).then((folder) => stat(folder)),
      backupFolderPath().then((folder) => stat(folder)),
    ])
    return data.dev === backups.dev
  } catch {
    return null
  }
}

const draftShape = /^\.draft-(\d+)-([0-9a-f]+)$/
/** Which machine made it: others may share the folder, and their processes are not to be seen from here. */
const machine = createHash('sha256').update(hostname()).digest('hex').slice(0, 8)
/** One of another machine is taken for left behind after so long. */
const foreignForMs = 24 * 60 * 60_000

/** A folder of its own for what is being made, whose name says by which process. */
export async function openDraft(inside: string): Promise<string> {
  const draft = path.join(inside, `.draft-${process.pid}-${machine}${crypto.randomUUID().replaceAll('-', '').slice(0, 12)}`)
  await mkdir(draft, { recursive: true })
  return draft
}

export const closeDraft = (draft: string): Promise<void> => rm(draft, { recursive: true, force: true }).catch(() => {})

/** Take away what processes that are no more have left half made. */
export async function sweepDrafts(inside: string): Promise<void> {
  for (const name of await readdir(inside).catch(() => [] as string[])) {
    const [, pidText, by] = draftShape.exec(name) ?? []
    if (pidText === undefined || by === undefined) continue
    const [pid, draft] = [Number(pidText), path.join(inside, name)]
    const isLeft = by.startsWith(machine)
      ? pid !== process.pid && !isAlive(pid)
      : Date.now() - ((await stat(draft).catch(() => null))?.mtimeMs ?? Date.now()) > foreignForMs
    if (isLeft) await closeDraft(draft)
  }
}

export function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0)
    return true
  } catch (error) {
    // There, and somebody else's.
    return (error as NodeJS.ErrnoException).code === 'EPERM'
  }
}
