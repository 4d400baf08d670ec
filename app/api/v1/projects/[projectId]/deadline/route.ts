import { getWritten } from '#api/describe-project'
import { describeProjectRefusal } from '#api/project-refusal'
import { setProjectDeadlineOperation } from '#api/projects'
import { endpoint, serve } from '#api/serve'
import { setDeadline } from '#lib/db/project/set-deadline'
import { calendarDay } from '#lib/quantity/day'

const set = serve(setProjectDeadlineOperation, async ({ path, body }) => {
  const { occasionKey, ...said } = body
  const forOccasion = occasionKey === undefined ? undefined : { occasionKey, today: calendarDay(new Date()) }
  const done = await setDeadline({ ...path, ...said, forOccasion })
  return done.ok ? getWritten(path.projectId) : describeProjectRefusal(done.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: set })
