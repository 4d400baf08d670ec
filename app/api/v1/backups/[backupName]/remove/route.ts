import { removeBackupOperation } from '#api/backups'
import { notFound } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { removeBackup } from '#lib/db/backup/list-backups'

const remove = serve(removeBackupOperation, async ({ path }) =>
  (await removeBackup(path.backupName)) ? { removed: path.backupName } : notFound('backup', path.backupName),
)

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: remove })
