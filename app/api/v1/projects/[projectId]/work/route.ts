import { getWritten } from '#api/describe-project'
import { describeProjectRefusal } from '#api/project-refusal'
import { logWorkOperation } from '#api/projects'
import { endpoint, serve } from '#api/serve'
import { logWork } from '#lib/db/project/move-project'

const work = serve(logWorkOperation, async ({ path, body }) => {
  const done = await logWork({ ...path, ...body })
  return done.ok ? getWritten(path.projectId) : describeProjectRefusal(done.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: work })
