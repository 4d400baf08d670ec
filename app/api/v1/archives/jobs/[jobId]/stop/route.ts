import { stopArchiveJobOperation } from '#api/archives'
import { describeArchiveJob } from '#api/describe-archive'
import { notFound } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { findArchiveJob, stopArchiveJob } from '#lib/db/archive/archive-jobs'

const stop = serve(stopArchiveJobOperation, async ({ path }) => {
  await stopArchiveJob(path.jobId)
  const job = await findArchiveJob(path.jobId)
  return job ? describeArchiveJob(job) : notFound('archive being written or brought back', path.jobId)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: stop })
