import { stopCheckOperation } from '#api/checks'
import { describeCheck } from '#api/describe-check'
import { notFound } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { findCheck, stopCheck } from '#lib/db/checking/check-jobs'

const stop = serve(stopCheckOperation, async ({ path }) => {
  if (await findCheck(path.jobId)) await stopCheck(path.jobId)
  const job = await findCheck(path.jobId)
  return job ? describeCheck(job) : notFound('check', path.jobId)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: stop })
