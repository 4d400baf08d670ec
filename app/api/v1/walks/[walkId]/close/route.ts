import { describeWalk, describeWalkProblem } from '#api/describe-walk'
import { endpoint, serve } from '#api/serve'
import { closeWalkOperation } from '#api/walks'
import { closeWalk } from '#lib/db/walk/close-walk'

const close = serve(closeWalkOperation, async ({ path, body }) => {
  const closed = await closeWalk({ ...path, status: body.status, who: body.by })
  return closed.ok ? describeWalk(path.walkId) : describeWalkProblem(closed.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: close })
