import { logWork } from '#lib/db/project/move-project'
import { getWritten } from '../../../../../_api/describe-project'
import { describeProjectRefusal } from '../../../../../_api/project-refusal'
import { logWorkOperation } from '../../../../../_api/projects'
import { endpoint, serve } from '../../../../../_api/serve'

const work = serve(logWorkOperation, async ({ path, body }) => {
  const done = await logWork({ ...path, ...body })
  return done.ok ? getWritten(path.projectId) : describeProjectRefusal(done.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: work })
