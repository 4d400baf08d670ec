import { checkBackupOperation } from '#api/backups'
import { beginBackupJob } from '#api/describe-backup'
import { endpoint, serve } from '#api/serve'

const check = serve(checkBackupOperation, ({ path }) => beginBackupJob({ verb: 'check', name: path.backupName }))

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: check })
