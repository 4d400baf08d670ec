import { stopCutJobOperation } from '#api/cut-plans'
import { describeCutJob } from '#api/describe-cut-plan'
import { notFound } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { stopCutJob } from '#lib/db/cut-plan/cut-jobs'
import { findCut } from '#lib/db/cut-plan/start-cut'

const stop = serve(stopCutJobOperation, async ({ path }) => {
  await stopCutJob(path.jobId)
  const job = await findCut(path.jobId)
  return job ? describeCutJob(job) : notFound('search for a plan of cuts', path.jobId)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: stop })
