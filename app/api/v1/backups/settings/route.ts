import { getBackupSettingsOperation, saveBackupSettingsOperation } from '#api/backups'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { getBackupSettings } from '#lib/db/backup/backup-settings'
import { changeBackupSettings } from '#lib/db/backup/change-backup-settings'
import { describeBackupRefusal } from '#words/backup'

const get = serve(getBackupSettingsOperation, () => getBackupSettings())

const save = serve(saveBackupSettingsOperation, async ({ body }) => {
  const changed = await changeBackupSettings(body)
  return changed.ok ? getBackupSettings() : new Problem('refused', describeBackupRefusal(changed.error))
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get, POST: save })
