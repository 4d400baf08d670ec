import 'server-only'
import { access } from 'node:fs/promises'
import path from 'node:path'
import Libsql from 'libsql'
import type { Result } from '#lib/result'
import { refused } from '#lib/result'
import { databaseUrl, dataFolder, isPostgresqlUrl } from '../data-folder'
import { closeDraft, openBackupFolder, openDraft, usualFolder } from './backup-folder'
import { type BackupRefused, refusalOf } from './backup-refused'
import { copyDatabase, migrateDatabase, sqlitePath } from './copy-database'
import { restoreBackup, setDamagedAside } from './restore-backup'
import { findRunning } from './running'
import type { ReportBackup } from './write-backup'

export type RestoreStoppedRefused =
  | BackupRefused
  | { kind: 'running'; pid: number | null }
  | { kind: 'no-such-file'; file: string }

/**
 * Restore with the program stopped: as `restoreBackup`, and also where the database that is there does not read, which is then set aside
 * file by file under a dated name.
 */
export async function restoreStopped(
  file: string,
  report: ReportBackup = () => {},
  at = new Date(),
): Promise<Result<{ setAside: string }, RestoreStoppedRefused>> {
  const url = databaseUrl()
  const pid = await findRunning()
  if (pid !== null || (!isPostgresqlUrl(url) && isHeld(sqlitePath(url)))) return refused({ kind: 'running', pid })
  const isThere = await access(file).then(
    () => true,
    () => false,
  )
  if (!isThere) return refused({ kind: 'no-such-file', file })
  // A chosen disk that is not connected must not keep anybody from having the collection back.
  const chosen = await openBackupFolder()
  const folder = chosen.ok ? chosen.value : usualFolder()
  try {
    await migrateDatabase(url)
    const restored = await restoreBackup({ url, file, folder, report })
    if (restored.ok || restored.error.kind !== 'database-damaged') return restored
  } catch (error) {
    if (refusalOf(error, dataFolder())?.kind !== 'database-damaged') throw error
  }
  if (isPostgresqlUrl(url)) return refused({ kind: 'database-damaged', says: 'PostgreSQL' })
  const aside = path.join(dataFolder(), `set-aside-${at.toISOString().slice(0, 19).replace(/[-:]/g, '').replace('T', '-')}`)
  const draft = await openDraft(dataFolder())
  try {
    const made = path.join(draft, 'made.db')
    const fresh = path.join(draft, 'fresh.db')
    await migrateDatabase(`file:${made}`)
    await copyDatabase(`file:${made}`, fresh)
    await setDamagedAside(sqlitePath(url), fresh, aside)
  } finally {
    await closeDraft(draft)
  }
  const restored = await restoreBackup({ url, file, folder, report })
  return restored.ok ? { ok: true, value: { setAside: aside } } : restored
}

/** Whether another program has the database open. */
function isHeld(file: string): boolean {
  let database: InstanceType<typeof Libsql> | null = null
  try {
    database = new Libsql(file, { timeout: 500 })
    database.exec('PRAGMA locking_mode = EXCLUSIVE')
    database.exec('BEGIN EXCLUSIVE')
    database.exec('ROLLBACK')
    return false
  } catch (error) {
    return refusalOf(error, file)?.kind === 'database-busy'
  } finally {
    database?.close()
  }
}
