import { getArchiveJob } from '#api/archives'
import { describeArchiveJob } from '#api/describe-archive'
import { notFound } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { findArchiveJob } from '#lib/db/archive/archive-jobs'

const get = serve(getArchiveJob, async ({ path }) => {
  const job = await findArchiveJob(path.jobId)
  return job ? describeArchiveJob(job) : notFound('archive being written or brought back', path.jobId)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
