import { listBackupsOperation, makeBackupOperation } from '#api/backups'
import { beginBackupJob, describeBackup } from '#api/describe-backup'
import { endpoint, serve } from '#api/serve'
import { backupFolderPath } from '#lib/db/backup/backup-folder'
import { findRunningBackup } from '#lib/db/backup/backup-jobs'
import { listBackups } from '#lib/db/backup/list-backups'
import { readBackupTrouble } from '../../../_backups/read-trouble'

const list = serve(listBackupsOperation, async () => ({
  folder: await backupFolderPath(),
  trouble: (await readBackupTrouble()).trouble,
  runningJobId: (await findRunningBackup())?.id ?? null,
  backups: (await listBackups()).map(describeBackup),
}))

const make = serve(makeBackupOperation, () => beginBackupJob({ verb: 'make', kind: 'asked' }))

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list, POST: make })
