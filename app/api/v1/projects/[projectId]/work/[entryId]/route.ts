import { answerLog, findEntry } from '#api/describe-work'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { workOperations } from '#api/work'
import { changeWork } from '#lib/db/work/change-work'
import { calendarDay } from '#lib/quantity/day'

const change = serve(workOperations.change, async ({ path, body }) => {
  const there = await findEntry(path)
  if (there instanceof Problem) return there
  const { version, ...said } = body
  const { day, stitches, minutes, donePerMille, note } = there
  const was = { day, minutes, note, donePerMille, stitches: donePerMille === null ? stitches : 0 }
  // The one said takes the place of the other, unless both are said.
  if (said.stitches !== undefined && said.donePerMille === undefined) was.donePerMille = null
  if (said.donePerMille !== undefined && said.donePerMille !== null && said.stitches === undefined) was.stitches = 0
  const edit = { entryId: path.entryId, version: version ?? there.version }
  return answerLog(path.projectId, await changeWork({ ...was, ...said, ...edit, today: calendarDay(new Date()) }))
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: change })
