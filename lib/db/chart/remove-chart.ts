import 'server-only'
import { underWayStatuses } from '#lib/project/life-cycle'
import { ok, type Result, refused } from '#lib/result'
import { write } from '../write'
import type { ChartRefusal } from './chart-refusal'
import { claimChart, journalChart } from './claim-chart'
import { readProjects } from './read-projects'

/** Why a chart is no longer held: passed out of the house (sold, given), lost, or never rightly there. */
export const chartEndings = ['passed on', 'lost', 'slip'] as const
export type ChartEnding = (typeof chartEndings)[number]

type Refusal = Extract<ChartRefusal, { kind: 'changed-meanwhile' | 'in-work' }>

/** A chart leaves the larder, all its copies; its history stays and restoreChart brings it back. Refused while it is worked from. */
export function removeChart(input: {
  id: string
  version: number
  ending: ChartEnding
  note: string | null
}): Promise<Result<null, Refusal>> {
  return write<null, Refusal>(async (open) => {
    const { id, ending, note } = input
    const claim = await claimChart(open, input)
    if (!claim.ok) return claim
    const unfinished = { goneAt: null, status: { in: [...underWayStatuses] } }
    const projects = await readProjects(open, { ...unfinished, design: { chartId: id } })
    if (projects.length > 0) return refused({ kind: 'in-work', projects })
    const { copies, currentPlaceId, ownerId } = claim.value
    await open.tx.chart.update({ where: { id }, data: { goneAt: open.at, outSince: null } })
    await journalChart(open, {
      kind: ending === 'passed on' ? 'transfer' : 'correct',
      chartId: id,
      wholeDelta: -copies,
      fromPlaceId: currentPlaceId,
      fromOwnerId: ownerId,
      reason: note === null ? ending : `${ending}: ${note}`,
    })
    return ok(null)
  })
}
