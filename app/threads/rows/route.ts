import { readRevision } from '#lib/db/read-revision'
import { listThreads, type ThreadRow } from '#lib/db/thread/list-threads'
import { getViewer } from '#viewer/viewer'
import { type RowsAnswer, rowsAtOnce } from '../../_listing/rows-answer'
import { rowsAskedSchema } from '../../_listing/rows-asked'
import { searchOfUrl } from '../../_listing/search-of-url'
import { filterOf, readChoices } from '../../_listing/thread-filter'
import { threadRuns } from '../thread-runs'

/** Rows of the threads found, for the window over a long list: `from`, or with `to` only their ids. */
export async function GET(request: Request): Promise<Response> {
  const search = searchOfUrl(request.url)
  const asked = rowsAskedSchema.safeParse(search)
  if (!asked.success) return new Response(null, { status: 400 })
  const { from, to } = asked.data
  const choices = readChoices(search)
  const { ownerIds } = await getViewer()
  const [revision, listing] = await Promise.all([
    readRevision(),
    listThreads(filterOf(choices), { ownerIds, offset: 0, limit: Number.MAX_SAFE_INTEGER, order: choices.order }),
  ])
  if (to !== undefined) return Response.json({ ids: listing.rows.slice(from, to + 1).map(({ id }) => id) })
  const answer: RowsAnswer<ThreadRow> = {
    ...{ revision, total: listing.total, from },
    runs: threadRuns(listing, choices.order),
    rows: listing.rows.slice(from, from + rowsAtOnce),
  }
  return Response.json(answer, { headers: { 'Cache-Control': 'no-store' } })
}
