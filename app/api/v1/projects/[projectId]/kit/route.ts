import { kitProject } from '#lib/db/project/kit-project'
import { getWritten } from '../../../../../_api/describe-project'
import { describeProjectRefusal } from '../../../../../_api/project-refusal'
import { kitProjectOperation } from '../../../../../_api/projects'
import { endpoint, serve } from '../../../../../_api/serve'

const kit = serve(kitProjectOperation, async ({ path, body }) => {
  const done = await kitProject({ ...path, ...body })
  return done.ok ? getWritten(path.projectId) : describeProjectRefusal(done.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: kit })
