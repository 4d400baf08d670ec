import { enterCountsOperation } from '#api/counts'
import { describeCountProblem } from '#api/describe-count'
import { endpoint, serve } from '#api/serve'
import { enterCounts } from '#lib/db/count/enter-counts'

const enter = serve(enterCountsOperation, async ({ path, body }) => {
  const { countId } = path
  const entered = body.lines.map(({ sawCountedAt, ...line }) => ({
    ...line,
    sawCountedAt: sawCountedAt === null ? null : new Date(sawCountedAt),
  }))
  const written = await enterCounts({ countId, by: body.by, entered, found: body.found })
  return written.ok ? written.value : describeCountProblem(written.error, countId)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: enter })
