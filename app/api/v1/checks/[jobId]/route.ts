import { getCheckOperation } from '#api/checks'
import { describeCheck } from '#api/describe-check'
import { notFound } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { findCheck } from '#lib/db/checking/check-jobs'

const get = serve(getCheckOperation, async ({ path }) => {
  const job = await findCheck(path.jobId)
  return job ? describeCheck(job) : notFound('check', path.jobId)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
