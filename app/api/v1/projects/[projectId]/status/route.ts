import { getWritten } from '#api/describe-project'
import { describeProjectRefusal } from '#api/project-refusal'
import { moveProjectOperation } from '#api/projects'
import { endpoint, serve } from '#api/serve'
import { moveProject } from '#lib/db/project/move-project'

const status = serve(moveProjectOperation, async ({ path, body }) => {
  const done = await moveProject({ ...path, ...body, today: body.on })
  return done.ok ? getWritten(path.projectId) : describeProjectRefusal(done.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: status })
