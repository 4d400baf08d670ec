import 'server-only'
import path from 'node:path'
import { ok, type Result } from '#lib/result'
import { requireWhole } from '../access/whole'
import { setBackupClock } from './backup-clock'
import { markFolder, usualFolder } from './backup-folder'
import type { BackupRefused } from './backup-refused'
import { type BackupSettings, getBackupSettings, writeBackupSettings } from './backup-settings'

/**
 * Change how backups are made on this machine. A folder that is chosen must be there: it is not made, since an empty mount point would
 * then take what was meant for a disk. What lies in the folder before stays there.
 */
export async function changeBackupSettings(settings: BackupSettings): Promise<Result<null, BackupRefused>> {
  requireWhole()
  const asked = settings.folder === null ? null : path.normalize(settings.folder)
  const folder = asked === usualFolder() ? null : asked
  if (folder !== null && folder !== (await getBackupSettings()).folder) {
    const marked = await markFolder(folder)
    if (!marked.ok) return marked
  }
  await writeBackupSettings({ ...settings, folder })
  await setBackupClock()
  return ok(null)
}
