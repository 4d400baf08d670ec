import { startCheckOperation } from '#api/checks'
import { describeCheck } from '#api/describe-check'
import { notFound, Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { findCheck, startCheck } from '#lib/db/checking/check-jobs'

const start = serve(startCheckOperation, async () => {
  const started = await startCheck()
  if (!started.ok) return new Problem('refused', 'The collection is being looked through just now.')
  const job = await findCheck(started.value.jobId)
  return job ? describeCheck(job) : notFound('check', started.value.jobId)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: start })
