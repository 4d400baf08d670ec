import { describeLoan, todayHere } from '#api/describe-loan'
import { loanOperations } from '#api/loans'
import { chosenOwners } from '#api/owners'
import { nextAfter } from '#api/paging'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { listLoans } from '#lib/db/loan/queries'

const list = serve(loanOperations.list, async ({ query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const { state, kind, with: placeId, project: projectId, chart: chartId, limit, after = 0 } = query
  const filter = { ownerIds, state, kind, placeId, projectId, chartId }
  const { loans, total } = await listLoans(filter, todayHere(), { offset: after, limit })
  return { ownerIds, total, loans: loans.map(describeLoan), next: nextAfter(after + loans.length, total) }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list })
