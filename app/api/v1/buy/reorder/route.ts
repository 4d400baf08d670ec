import { describeReorder } from '#api/describe-buying'
import { chosenOwners } from '#api/owners'
import { nextAfter } from '#api/paging'
import { Problem } from '#api/problem'
import { listReorderCheck } from '#api/reorder'
import { endpoint, serve } from '#api/serve'
import { readReorderCheck } from '#lib/db/reorder/reorder-check'

const list = serve(listReorderCheck, async ({ query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const rows = await readReorderCheck({ ownerIds, now: new Date() })
  const asked = query.due ? rows.filter(({ check }) => check.isDue) : rows
  const { after: offset = 0, limit } = query
  const shown = asked.slice(offset, offset + limit)
  return {
    ownerIds,
    total: asked.length,
    checks: shown.map(describeReorder),
    next: nextAfter(offset + shown.length, asked.length),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list })
