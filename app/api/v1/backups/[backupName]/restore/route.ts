import { previewRestoreOperation, restoreBackupOperation } from '#api/backups'
import { beginBackupJob, describeBackup } from '#api/describe-backup'
import { notFound } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { readRestoreOutlook } from '#lib/db/backup/restore-outlook'

const preview = serve(previewRestoreOperation, async ({ path }) => {
  const outlook = await readRestoreOutlook(path.backupName)
  if (!outlook) return notFound('backup', path.backupName)
  const { backup, held, present, since } = outlook
  return {
    backup: describeBackup(backup),
    held,
    present,
    since: since && { ...since, lastAt: since.lastAt?.toISOString() ?? null },
  }
})

const restore = serve(restoreBackupOperation, ({ path }) => beginBackupJob({ verb: 'restore', name: path.backupName }))

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: preview, POST: restore })
