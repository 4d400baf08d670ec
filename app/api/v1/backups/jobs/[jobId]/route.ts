import { getBackupJob } from '#api/backups'
import { describeBackupJob } from '#api/describe-backup'
import { notFound } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { findBackupJob } from '#lib/db/backup/backup-jobs'

const get = serve(getBackupJob, async ({ path }) => {
  const job = await findBackupJob(path.jobId)
  return job ? describeBackupJob(job) : notFound('job', path.jobId)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
