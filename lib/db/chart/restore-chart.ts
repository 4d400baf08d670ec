import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { isOut } from '#lib/stock/batch'
import { findMergedInto } from '../merging/merging'
import { write } from '../write'
import type { ChartRefusal } from './chart-refusal'
import { claimChart, journalChart } from './claim-chart'

type Refusal = Extract<ChartRefusal, { kind: 'changed-meanwhile' | 'merged-into' }>

/** Bring back a chart that was removed, where it was. A place that was taken away meanwhile is not its place any more. */
export function restoreChart(input: { id: string; version: number }): Promise<Result<null, Refusal>> {
  return write<null, Refusal>(async (open) => {
    const { tx, at } = open
    const { id } = input
    const claim = await claimChart(open, { ...input, isGone: true })
    if (!claim.ok) return claim
    const into = await findMergedInto('chart', id, tx)
    if (into) return refused({ kind: 'merged-into', chartId: into.keptId, title: into.keptName })
    const { copies, ownerId } = claim.value
    const places = await tx.place.findMany({
      where: { id: { in: [claim.value.homePlaceId, claim.value.currentPlaceId].filter((one) => one !== null) }, goneAt: null },
      select: { id: true },
    })
    const standing = (placeId: string | null) => (places.some((place) => place.id === placeId) ? placeId : null)
    const homePlaceId = standing(claim.value.homePlaceId)
    const currentPlaceId = standing(claim.value.currentPlaceId) ?? homePlaceId
    const outSince = isOut({ homePlaceId, currentPlaceId }) ? at : null
    await tx.chart.update({ where: { id }, data: { goneAt: null, homePlaceId, currentPlaceId, outSince } })
    await journalChart(open, { kind: 'undo', chartId: id, wholeDelta: copies, toPlaceId: currentPlaceId, toOwnerId: ownerId })
    return ok(null)
  })
}
