import 'server-only'
import { isPeople, type PlaceKind } from '#lib/place/place'
import { ok, type Result, refused } from '#lib/result'
import { isOut } from '#lib/stock/batch'
import { write } from '../write'
import type { ChartRefusal } from './chart-refusal'
import { claimChart, ensureChartPlace, journalChart } from './claim-chart'

/** Why a chart goes somewhere: taken there for a while, lent to somebody, or to live there from now on. */
export const chartMoves = ['take', 'lend', 'home'] as const
export type ChartMove = (typeof chartMoves)[number]

type Refusal = Extract<ChartRefusal, { kind: 'changed-meanwhile' | 'is-a-file' | 'not-a-person' | 'already-there' | 'no-home' }>

/**
 * Take a chart somewhere for a while, lend it, or give it another home; returnChart (lib/db/place) puts it back. A place that is not
 * known yet is made, as a person when the chart is lent. A chart without a home finds one where it is first put, but not with
 * somebody. Away from home it is out.
 */
export function moveChart(input: {
  id: string
  version: number
  toPlaceLabel: string
  how: ChartMove
  reason: string | null
}): Promise<Result<null, Refusal>> {
  return write<null, Refusal>(async (open) => {
    const { tx, at } = open
    const { id, toPlaceLabel, how, reason } = input
    const claim = await claimChart(open, input)
    if (!claim.ok) return claim
    const { homePlaceId, currentPlaceId, kind } = claim.value
    const place = await ensureChartPlace(open, { label: toPlaceLabel, chartKind: kind, isLent: how === 'lend' })
    if (!place.ok) return place
    const toPlaceId = place.value.id
    if (homePlaceId === null && how !== 'home' && isPeople(place.value.kind as PlaceKind)) return refused({ kind: 'no-home' })
    const newHomeId = how === 'home' || homePlaceId === null ? toPlaceId : homePlaceId
    if (toPlaceId === (currentPlaceId ?? homePlaceId) && newHomeId === homePlaceId) return refused({ kind: 'already-there' })
    const isAway = isOut({ homePlaceId: newHomeId, currentPlaceId: toPlaceId })
    await tx.chart.update({
      where: { id },
      data: { homePlaceId: newHomeId, currentPlaceId: toPlaceId, outSince: isAway ? at : null },
    })
    await journalChart(open, {
      kind: isAway ? 'take' : newHomeId === homePlaceId ? 'return' : 'move',
      chartId: id,
      fromPlaceId: currentPlaceId,
      toPlaceId,
      reason,
    })
    return ok(null)
  })
}
