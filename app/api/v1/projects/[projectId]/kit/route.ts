import { getWritten } from '#api/describe-project'
import { describeProjectRefusal } from '#api/project-refusal'
import { kitProjectOperation } from '#api/projects'
import { endpoint, serve } from '#api/serve'
import { kitProject } from '#lib/db/project/kit-project'

const kit = serve(kitProjectOperation, async ({ path, body }) => {
  const done = await kitProject({ ...path, ...body })
  return done.ok ? getWritten(path.projectId) : describeProjectRefusal(done.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: kit })
