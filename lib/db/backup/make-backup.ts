import 'server-only'
import { randomUUID } from 'node:crypto'
import type { BackupCheck } from '#lib/backup/check'
import type { BackupKind } from '#lib/backup/manifest'
import { log } from '#lib/log/log'
import { ok, type Result, refused } from '#lib/result'
import { openBackupFolder } from './backup-folder'
import type { BackupRefused } from './backup-refused'
import { keepLastRun } from './last-run'
import { findBackupFile, keepCheck, rotateBackups } from './list-backups'
import { BackupStopped, runBackup } from './run-backup'
import type { ReportBackup } from './write-backup'

type Controls = { signal?: AbortSignal; report?: ReportBackup }

export type BackupMade = { name: string; check: BackupCheck; rotatedOut: string[] }

/**
 * Make a backup, check it by restoring it to a scratch place, and, only when it is good, let the rotation take away what is not kept.
 * However it ends is kept as the last run, but for a stop.
 */
export async function makeBackup(kind: BackupKind, controls: Controls = {}): Promise<Result<BackupMade, BackupRefused>> {
  const at = new Date().toISOString()
  try {
    const made = await makeAndCheck(kind, controls)
    if (!made.ok) await keepLastRun({ at, ended: 'refused', refusal: made.error })
    else if (made.value.check.isGood) await keepLastRun({ at, ended: 'good' })
    else await keepLastRun({ at, ended: 'bad', faults: made.value.check.faults })
    return made
  } catch (error) {
    if (error instanceof BackupStopped) throw error
    const errorId = randomUUID()
    log.error('backup failed', { id: errorId, error })
    await keepLastRun({ at, ended: 'failed', errorId })
    throw error
  }
}

async function makeAndCheck(kind: BackupKind, controls: Controls): Promise<Result<BackupMade, BackupRefused>> {
  const folder = await openBackupFolder()
  if (!folder.ok) return folder
  const made = await runBackup({ verb: 'make', folder: folder.value, kind }, controls)
  if (!made.ok) return made
  const { name } = made.value
  const check = await checkKept(name, controls)
  if (check === null) return refused({ kind: 'no-such-backup' })
  return ok({ name, check, rotatedOut: check.isGood ? await rotateBackups() : [] })
}

/** Check a backup and keep what was found beside it; null when there is none of that name. */
export async function checkKept(name: string, controls: Controls = {}): Promise<BackupCheck | null> {
  const found = await findBackupFile(name)
  if (found === null) return null
  const check = await runBackup({ verb: 'check', file: found.file }, controls)
  await keepCheck(found.file, check)
  return check
}

/** Put a backup in the place of what is there, which is set aside first. */
export async function restoreKept(name: string, controls: Controls = {}): Promise<Result<{ setAside: string }, BackupRefused>> {
  const found = await findBackupFile(name)
  if (found === null) return refused({ kind: 'no-such-backup' })
  const folder = await openBackupFolder()
  if (!folder.ok) return folder
  const restored = await runBackup({ verb: 'restore', file: found.file, folder: folder.value }, controls)
  if (restored.ok) await checkKept(restored.value.setAside, controls).catch(() => null)
  return restored
}
