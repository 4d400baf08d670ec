import { designQuerySchema } from '#lib/chart/design-query'
import { findDesigns } from '#lib/db/answers/find-designs'
import { getAnswers } from '#lib/db/answers/get-answers'
import { calendarDay } from '#lib/quantity/day'
import { getViewer } from '#viewer/viewer'
import { type RowsAnswer, rowsAtOnce } from '../../_listing/rows-answer'
import { rowsAskedSchema } from '../../_listing/rows-asked'
import { searchOfUrl } from '../../_listing/search-of-url'
import { type ChartRow, chartRuns, readChartRows } from '../chart-rows'

/** Rows of the charts found, for the window over a long list: `from`, or with `to` only their ids. */
export async function GET(request: Request): Promise<Response> {
  const search = searchOfUrl(request.url)
  const asked = rowsAskedSchema.safeParse(search)
  if (!asked.success) return new Response(null, { status: 400 })
  const { from, to } = asked.data
  const query = { ...designQuerySchema.parse(search), page: 1 }
  const [{ ownerIds }, answers] = await Promise.all([getViewer(), getAnswers()])
  const { slots } = findDesigns(answers, query, ownerIds, 0)
  const some = [...slots.subarray(from, to === undefined ? from + rowsAtOnce : to + 1)]
  const records = some.map((slot) => answers.catalogue.recordAt(slot))
  if (to !== undefined) return Response.json({ ids: records.map(({ designId }) => designId) })
  const answer: RowsAnswer<ChartRow> = {
    revision: answers.revision,
    total: slots.length,
    runs: query.order === 'bestCovered' ? chartRuns(answers, { slots }, ownerIds) : [],
    from,
    rows: await readChartRows(
      answers,
      { records },
      { ownerIds, today: calendarDay(new Date()), on: query.clothCount?.length === 1 ? (query.clothCount[0] ?? null) : null },
    ),
  }
  return Response.json(answer, { headers: { 'Cache-Control': 'no-store' } })
}
