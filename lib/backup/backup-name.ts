import type { BackupKind } from './manifest'

const words: Record<BackupKind, string> = { scheduled: '', asked: '', 'before-restore': '-before-restore' }
const nameShape = /^larder-\d{8}-\d{6}-[0-9a-f]{4}(?:-before-restore)?(?:-brought-in)?\.zip$/

const two = (part: number): string => String(part).padStart(2, '0')

/**
 * The name of a backup's file: the day and time by this machine's clock, so that a person finds it in a folder, and four letters that tell
 * two of one second apart: `larder-20261130-021005-3fa9.zip`.
 *
 * @param letters  four of 0–9 and a–f
 */
export function nameBackup(at: Date, kind: BackupKind, letters: string): string {
  const day = `${at.getFullYear()}${two(at.getMonth() + 1)}${two(at.getDate())}`
  const time = `${two(at.getHours())}${two(at.getMinutes())}${two(at.getSeconds())}`
  const name = `larder-${day}-${time}-${letters}${words[kind]}.zip`
  if (!nameShape.test(name)) throw new RangeError(`nameBackup: ${JSON.stringify(name)}`)
  return name
}

/** The name of one that was brought in, made at that moment. */
export const nameBroughtIn = (at: Date, kind: BackupKind, letters: string): string =>
  nameBackup(at, kind, letters).replace(/\.zip$/, '-brought-in.zip')

/** Whether a file's name is one that backups are given here: never a path. */
export const isBackupName = (name: string): boolean => nameShape.test(name)

export const isBroughtInName = (name: string): boolean => isBackupName(name) && name.endsWith('-brought-in.zip')
