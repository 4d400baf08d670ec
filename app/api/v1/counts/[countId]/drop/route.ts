import { dropCountOperation } from '#api/counts'
import { describeComparison, describeCountProblem } from '#api/describe-count'
import { endpoint, serve } from '#api/serve'
import { dropCount } from '#lib/db/count/close-count'

const drop = serve(dropCountOperation, async ({ path }) => {
  const closed = await dropCount({ countId: path.countId })
  return closed.ok ? describeComparison(path.countId) : describeCountProblem(closed.error, path.countId)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: drop })
