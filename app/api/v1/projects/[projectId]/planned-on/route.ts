import { getWritten } from '#api/describe-project'
import { describeProjectRefusal } from '#api/project-refusal'
import { planProjectDayOperation } from '#api/projects'
import { endpoint, serve } from '#api/serve'
import { planDay } from '#lib/db/project/plan-day'

const plan = serve(planProjectDayOperation, async ({ path, body }) => {
  const done = await planDay({ ...path, ...body })
  return done.ok ? getWritten(path.projectId) : describeProjectRefusal(done.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: plan })
