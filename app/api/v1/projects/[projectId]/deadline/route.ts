import { getWritten } from '#api/describe-project'
import { describeProjectRefusal } from '#api/project-refusal'
import { setProjectDeadlineOperation } from '#api/projects'
import { endpoint, serve } from '#api/serve'
import { setDeadline } from '#lib/db/project/set-deadline'

const set = serve(setProjectDeadlineOperation, async ({ path, body }) => {
  const done = await setDeadline({ ...path, ...body })
  return done.ok ? getWritten(path.projectId) : describeProjectRefusal(done.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: set })
