import { getWritten } from '#api/describe-project'
import { describeLog } from '#api/describe-work'
import { describeProjectRefusal } from '#api/project-refusal'
import { endpoint, serve } from '#api/serve'
import { workOperations } from '#api/work'
import { logWork } from '#lib/db/work/log-work'
import { calendarDay } from '#lib/quantity/day'

const list = serve(workOperations.list, ({ path, query }) => describeLog(path.projectId, query))

const log = serve(workOperations.log, async ({ path, body }) => {
  const { day, minutes, hoursTenths, ...said } = body
  const today = calendarDay(new Date())
  const given = minutes ?? (hoursTenths === undefined ? null : hoursTenths * 6)
  const done = await logWork({ ...path, ...said, day: day ?? today, minutes: given, today })
  return done.ok ? getWritten(path.projectId) : describeProjectRefusal(done.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list, POST: log })
