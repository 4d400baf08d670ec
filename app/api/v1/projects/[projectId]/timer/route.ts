import { answerLog } from '#api/describe-work'
import { endpoint, serve } from '#api/serve'
import { workOperations } from '#api/work'
import { startTimer } from '#lib/db/work/start-timer'

const start = serve(workOperations.startTimer, async ({ path, body }) =>
  answerLog(path.projectId, await startTimer({ ...path, ...body })),
)

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: start })
