import { describeWalk, describeWalkProblem } from '#api/describe-walk'
import { endpoint, serve } from '#api/serve'
import { takeInsteadOperation } from '#api/walks'
import { takeInstead } from '#lib/db/walk/take-instead'

const instead = serve(takeInsteadOperation, async ({ path, body }) => {
  const taken = await takeInstead({ ...path, lineIds: body.lineIds, batchId: body.batchId, who: body.by })
  return taken.ok ? describeWalk(path.walkId) : describeWalkProblem(taken.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: instead })
