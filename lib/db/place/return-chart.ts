import 'server-only'
import { calendarDay } from '#lib/quantity/day'
import { ok, type Result, refused } from '#lib/result'
import { isOut } from '#lib/stock/batch'
import { journalChart } from '../chart/claim-chart'
import { settleLines } from '../loan/settle-lines'
import { write } from '../write'

export type ReturnChartRefusal = { kind: 'not-out' } | { kind: 'no-home' } | { kind: 'changed-meanwhile' }

/** Put a chart that is out back where it lives; whoever had it on loan has it no more. */
export function returnChart(input: { id: string; version: number }): Promise<Result<null, ReturnChartRefusal>> {
  return write<null, ReturnChartRefusal>(async (open) => {
    const { tx, at, touch } = open
    const { id, version } = input
    const chart = await tx.chart.findFirst({
      where: { id, version, goneAt: null },
      select: { homePlaceId: true, currentPlaceId: true, designs: { select: { id: true } } },
    })
    if (!chart) return refused({ kind: 'changed-meanwhile' })
    const { homePlaceId, currentPlaceId, designs } = chart
    if (homePlaceId === null) return refused({ kind: 'no-home' })
    if (!isOut(chart)) return refused({ kind: 'not-out' })
    await tx.chart.update({
      where: { id },
      data: { currentPlaceId: homePlaceId, outSince: null, version: { increment: 1 } },
    })
    await journalChart(open, { kind: 'return', chartId: id, fromPlaceId: currentPlaceId, toPlaceId: homePlaceId })
    await settleLines(tx, { chartId: id }, { fromPlaceId: currentPlaceId, on: calendarDay(at) })
    touch('chart', id)
    for (const design of designs) touch('design', design.id)
    return ok(null)
  })
}
