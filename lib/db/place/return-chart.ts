import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { isOut } from '#lib/stock/batch'
import { newId } from '../new-id'
import { write } from '../write'

export type ReturnChartRefusal = { kind: 'not-out' } | { kind: 'no-home' } | { kind: 'changed-meanwhile' }

/** Put a chart that is out back where it lives. */
export function returnChart(input: { id: string; version: number }): Promise<Result<null, ReturnChartRefusal>> {
  return write<null, ReturnChartRefusal>(async ({ tx, revision, at, touch }) => {
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
    await tx.movement.create({
      data: { id: newId(), revision, at, kind: 'return', chartId: id, fromPlaceId: currentPlaceId, toPlaceId: homePlaceId },
    })
    touch('chart', id)
    for (const design of designs) touch('design', design.id)
    return ok(null)
  })
}
