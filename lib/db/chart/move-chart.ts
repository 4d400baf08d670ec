import 'server-only'
import { isPeople, type PlaceKind } from '#lib/place/place'
import { calendarDay } from '#lib/quantity/day'
import { ok, type Result, refused } from '#lib/result'
import { isOut } from '#lib/stock/batch'
import { settleLines } from '../loan/settle-lines'
import { write } from '../write'
import type { ChartRefusal } from './chart-refusal'
import { claimChart, ensureChartPlace, journalChart } from './claim-chart'

/** Why a chart goes somewhere: taken there for a while, or to live there from now on. Handed to somebody, it is lent (lib/db/loan). */
export const chartMoves = ['take', 'home'] as const
export type ChartMove = (typeof chartMoves)[number]

type Refusal = Extract<
  ChartRefusal,
  { kind: 'changed-meanwhile' | 'is-a-file' | 'is-lending' | 'kept-by-record' | 'already-there' }
>

/**
 * Take a chart somewhere for a while, or give it another home; returnChart (lib/db/place) puts it back. A place that is not known yet is
 * made. A chart without a home finds one where it is first put. Away from home it is out. Into somebody's hands it is lent, with a day
 * to be back by: that is another write. From one strange place to the next it is out since the day it left home.
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
    const { homePlaceId, currentPlaceId, outSince, kind } = claim.value
    const place = await ensureChartPlace(open, { label: toPlaceLabel, chartKind: kind })
    if (!place.ok) return place
    const toPlaceId = place.value.id
    if (how !== 'home' && isPeople(place.value.kind as PlaceKind))
      return refused({ kind: 'is-lending', label: place.value.label })
    const newHomeId = how === 'home' || homePlaceId === null ? toPlaceId : homePlaceId
    if (toPlaceId === (currentPlaceId ?? homePlaceId) && newHomeId === homePlaceId) return refused({ kind: 'already-there' })
    const isAway = isOut({ homePlaceId: newHomeId, currentPlaceId: toPlaceId })
    await tx.chart.update({
      where: { id },
      data: { homePlaceId: newHomeId, currentPlaceId: toPlaceId, outSince: isAway ? (outSince ?? at) : null },
    })
    await settleLines(tx, { chartId: id }, { fromPlaceId: currentPlaceId, on: calendarDay(at) })
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
