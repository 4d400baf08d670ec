import { readRevision } from '#lib/db/read-revision'
import { calendarDay } from '#lib/quantity/day'
import { getViewer } from '#viewer/viewer'
import { projectsQuerySchema } from '../../_listing/projects-query'
import { type RowsAnswer, rowsAtOnce } from '../../_listing/rows-answer'
import { rowsAskedSchema } from '../../_listing/rows-asked'
import { searchOfUrl } from '../../_listing/search-of-url'
import type { ProjectListRow } from '../project-columns'
import { findProjects } from '../projects-found'

/** Rows of the projects found, for the window over a long list: a block that holds `from`, or with `to` only the ids of a run. */
export async function GET(request: Request): Promise<Response> {
  const search = searchOfUrl(request.url)
  const asked = rowsAskedSchema.safeParse(search)
  if (!asked.success) return new Response(null, { status: 400 })
  const { from, to } = asked.data
  const { ownerIds } = await getViewer()
  const page = Math.floor(from / rowsAtOnce) + 1
  const [revision, { rows, ids, runs }] = await Promise.all([
    readRevision(),
    findProjects(projectsQuerySchema.parse(search), {
      ...{ ownerIds, today: calendarDay(new Date()), page },
      perPage: to === undefined ? rowsAtOnce : 0,
    }),
  ])
  if (to !== undefined) return Response.json({ ids: ids.slice(from, to + 1) })
  const answer: RowsAnswer<ProjectListRow> = { revision, total: ids.length, runs, from: (page - 1) * rowsAtOnce, rows }
  return Response.json(answer, { headers: { 'Cache-Control': 'no-store' } })
}
