import { answerLog, findEntry } from '#api/describe-work'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { workOperations } from '#api/work'
import { restoreWork } from '#lib/db/work/restore-work'

const restore = serve(workOperations.restore, async ({ path, body }) => {
  const there = await findEntry(path)
  if (there instanceof Problem) return there
  return answerLog(path.projectId, await restoreWork({ entryId: path.entryId, version: body.version ?? there.version }))
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: restore })
