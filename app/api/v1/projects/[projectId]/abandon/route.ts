import { getWritten } from '#api/describe-project'
import { describeProjectRefusal } from '#api/project-refusal'
import { abandonProjectOperation } from '#api/projects'
import { endpoint, serve } from '#api/serve'
import { abandonProject } from '#lib/db/project/put-kit-back'

const abandon = serve(abandonProjectOperation, async ({ path, body }) => {
  const done = await abandonProject({ ...path, ...body })
  return done.ok ? getWritten(path.projectId) : describeProjectRefusal(done.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: abandon })
