import 'server-only'
import { textKey } from '#lib/quantity/text-key'
import { ok, type Result, refused } from '#lib/result'
import { write } from '../write'
import { type ChartInput, writeDesigners } from './add-chart'
import type { ChartRefusal } from './chart-refusal'
import { claimChart, journalChart } from './claim-chart'

type Refusal = Extract<ChartRefusal, { kind: 'changed-meanwhile' | 'no-such-owner' | 'is-a-file' }>

/**
 * Write anew what a chart is. Other copies than before are a correction in the journal, another owner a transfer. A design that has
 * its name from the chart, as its only one, takes the new name along.
 */
export function editChart(input: ChartInput & { id: string; version: number }): Promise<Result<null, Refusal>> {
  return write<null, Refusal>(async (open) => {
    const { tx } = open
    const { id, version, designers, ...chart } = input
    const claim = await claimChart(open, { id, version })
    if (!claim.ok) return claim
    const held = claim.value
    const owner = await tx.owner.findUnique({ where: { id: chart.ownerId }, select: { id: true } })
    if (!owner) return refused({ kind: 'no-such-owner', ownerId: chart.ownerId })
    if (chart.kind === 'file' && held.currentPlace?.kind === 'person') return refused({ kind: 'is-a-file' })

    const titleKey = textKey(chart.title)
    await tx.chart.update({ where: { id }, data: { ...chart, titleKey } })
    await writeDesigners(open, id, designers)
    const [only, ...others] = held.designs
    if (only && others.length === 0 && only.titleKey === held.titleKey && chart.title !== held.title)
      await tx.design.update({ where: { id: only.id }, data: { title: chart.title, titleKey, version: { increment: 1 } } })
    if (chart.ownerId !== held.ownerId)
      await journalChart(open, { kind: 'transfer', chartId: id, fromOwnerId: held.ownerId, toOwnerId: chart.ownerId })
    if (chart.copies !== held.copies)
      await journalChart(open, { kind: 'correct', chartId: id, wholeDelta: chart.copies - held.copies })
    return ok(null)
  })
}
