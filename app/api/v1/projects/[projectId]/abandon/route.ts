import { abandonProject } from '#lib/db/project/put-kit-back'
import { getWritten } from '../../../../../_api/describe-project'
import { describeProjectRefusal } from '../../../../../_api/project-refusal'
import { abandonProjectOperation } from '../../../../../_api/projects'
import { endpoint, serve } from '../../../../../_api/serve'

const abandon = serve(abandonProjectOperation, async ({ path, body }) => {
  const done = await abandonProject({ ...path, ...body })
  return done.ok ? getWritten(path.projectId) : describeProjectRefusal(done.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: abandon })
