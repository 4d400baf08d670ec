import { enterCountsOperation } from '#api/counts'
import { describeCountProblem } from '#api/describe-count'
import { endpoint, serve } from '#api/serve'
import { enterCounts } from '#lib/db/count/enter-counts'

const enter = serve(enterCountsOperation, async ({ path, body }) => {
  const { countId } = path
  const entered = body.lines.map(({ sawCountedAt, countedAt, ...line }) => ({
    ...line,
    ...(countedAt === undefined ? {} : { countedAt: new Date(countedAt) }),
    sawCountedAt: sawCountedAt === null ? null : new Date(sawCountedAt),
  }))
  const sentAt = body.sentAt === undefined ? undefined : new Date(body.sentAt)
  const written = await enterCounts({ countId, by: body.by, entered, found: body.found, sentAt })
  if (!written.ok) return describeCountProblem(written.error, countId)
  return {
    ...written.value,
    conflicts: written.value.conflicts.map((line) => ({ ...line, countedAt: line.countedAt?.toISOString() ?? null })),
    entered: written.value.entered.map(({ lineId, countedAt }) => ({ lineId, countedAt: countedAt.toISOString() })),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: enter })
