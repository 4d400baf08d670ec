import { bringBackOperation } from '#api/archives'
import { describeArchiveJob, tooManyArchives } from '#api/describe-archive'
import { notFound } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { startBringBack } from '#lib/db/archive/archive-jobs'

const begin = serve(bringBackOperation, async ({ path }) => {
  const started = await startBringBack(path.givenId)
  if (started.ok) return describeArchiveJob(started.value)
  return started.error.kind === 'no-such-file' ? notFound('archive', path.givenId) : tooManyArchives()
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: begin })
