import { listCountsOperation, startCountOperation } from '#api/counts'
import { describeCount, describeCountProblem, describeSheet } from '#api/describe-count'
import { chosenOwners } from '#api/owners'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { noSuch } from '#api/stock-refusal'
import { listNotCounted } from '#lib/db/count/not-counted'
import { listCounts } from '#lib/db/count/queries'
import { startCount } from '#lib/db/count/start-count'

const list = serve(listCountsOperation, async ({ query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const now = new Date()
  const since = new Date(now)
  since.setFullYear(since.getFullYear() - 1)
  const [{ counts, total }, due] = await Promise.all([
    listCounts({ offset: 0, limit: 100 }),
    listNotCounted({ ownerIds, since, now }),
  ])
  return {
    ...{ ownerIds, total },
    counts: counts.map((count) => ({ ...describeCount(count), lines: count.lines, linesCounted: count.linesCounted })),
    notCounted: due.map(({ place, batches, due: lines, never, dueA }) => ({
      place: { placeId: place.id, label: place.label },
      ...{ batches, due: lines, never, dueA },
    })),
  }
})

const start = serve(startCountOperation, async ({ body }) => {
  const started = await startCount(body)
  if (started.ok) return describeSheet(started.value.countId)
  return started.error.kind === 'no-such-place' ? noSuch('place', 'placeId') : describeCountProblem(started.error, '')
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list, POST: start })
