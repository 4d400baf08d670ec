import { describeWalk, describeWalkProblem } from '#api/describe-walk'
import { endpoint, serve } from '#api/serve'
import { bringWalkUpToDate } from '#api/walks'
import { bringUpToDate } from '#lib/db/walk/bring-up-to-date'

const bring = serve(bringWalkUpToDate, async ({ path }) => {
  const brought = await bringUpToDate(path)
  return brought.ok ? describeWalk(path.walkId) : describeWalkProblem(brought.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: bring })
