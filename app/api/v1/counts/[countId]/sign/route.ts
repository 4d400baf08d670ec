import { signCountOperation } from '#api/counts'
import { describeComparison, describeCountProblem } from '#api/describe-count'
import { endpoint, serve } from '#api/serve'
import { signCount } from '#lib/db/count/close-count'

const sign = serve(signCountOperation, async ({ path, body }) => {
  const closed = await signCount({ countId: path.countId, by: body.by })
  return closed.ok ? describeComparison(path.countId) : describeCountProblem(closed.error, path.countId)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: sign })
