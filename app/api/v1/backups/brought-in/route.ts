import { bringInBackupOperation } from '#api/backups'
import { describeBackup } from '#api/describe-backup'
import { notFound, Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { bringInBackup } from '#lib/db/backup/bring-in-backup'
import { findBackup } from '#lib/db/backup/list-backups'
import { describeBackupRefusal } from '#words/backup'

const bring = serve(bringInBackupOperation, async ({ file }) => {
  const brought = await bringInBackup(new Blob([new Uint8Array(file.bytes)]).stream() as ReadableStream<Uint8Array>)
  if (!brought.ok) return new Problem('refused', describeBackupRefusal(brought.error))
  const backup = await findBackup(brought.value.name)
  return backup ? describeBackup(backup) : notFound('backup', brought.value.name)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: bring })
