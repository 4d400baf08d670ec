import { moveProject } from '#lib/db/project/move-project'
import { getWritten } from '../../../../../_api/describe-project'
import { describeProjectRefusal } from '../../../../../_api/project-refusal'
import { moveProjectOperation } from '../../../../../_api/projects'
import { endpoint, serve } from '../../../../../_api/serve'

const status = serve(moveProjectOperation, async ({ path, body }) => {
  const done = await moveProject({ ...path, ...body, today: body.on })
  return done.ok ? getWritten(path.projectId) : describeProjectRefusal(done.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: status })
