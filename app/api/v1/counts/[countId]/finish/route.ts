import { finishCountOperation } from '#api/counts'
import { describeComparison, describeCountProblem } from '#api/describe-count'
import { endpoint, serve } from '#api/serve'
import { finishCounting } from '#lib/db/count/close-count'

const finish = serve(finishCountOperation, async ({ path }) => {
  const closed = await finishCounting({ countId: path.countId })
  return closed.ok ? describeComparison(path.countId) : describeCountProblem(closed.error, path.countId)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: finish })
