import { describeTag } from '#api/describe-kit-bags'
import { findKitLotsOperation } from '#api/kit-bags'
import { chosenOwners } from '#api/owners'
import { nextAfter } from '#api/paging'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { findKitLots } from '#lib/db/kit-bag/find-kit-lots'

const dayMs = 86_400_000

const list = serve(findKitLotsOperation, async ({ query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const offset = query.after ?? 0
  const { rows, total } = await findKitLots({
    ...{ ownerIds, lot: query.lot, batchId: query.batch, projectId: query.project, offset, limit: query.limit },
    threadIds: query.thread === undefined ? undefined : [query.thread],
    from: query.from === undefined ? undefined : new Date(`${query.from}T00:00:00Z`),
    before: query.to === undefined ? undefined : new Date(Date.parse(`${query.to}T00:00:00Z`) + dayMs),
  })
  return {
    ...{ ownerIds, total, next: nextAfter(offset + rows.length, total) },
    records: rows.map(({ id: _, project, thread, bags, at, ...line }) => ({
      ...{ projectId: project.id, title: project.title, thread: describeTag(thread), ...line, at: at.toISOString() },
      bags: bags.map(({ number, ...bag }) => ({ bag: number, ...bag })),
    })),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list })
