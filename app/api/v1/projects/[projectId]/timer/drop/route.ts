import { answerLog } from '#api/describe-work'
import { endpoint, serve } from '#api/serve'
import { workOperations } from '#api/work'
import { dropTimer } from '#lib/db/work/drop-timer'

const drop = serve(workOperations.dropTimer, async ({ path }) => answerLog(path.projectId, await dropTimer(path)))

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: drop })
