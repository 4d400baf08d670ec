import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { write } from '../write'
import type { ChartRefusal } from './chart-refusal'
import { readProjects } from './read-projects'

type Refusal = Extract<ChartRefusal, { kind: 'changed-meanwhile' | 'only-design' | 'design-worked' }>

/**
 * Take a design out of its chart, with its thread lists. Refused for the chart's only one, and for one that was ever a project: a
 * finish keeps its design.
 */
export function removeDesign(input: { id: string; version: number }): Promise<Result<{ chartId: string }, Refusal>> {
  return write<{ chartId: string }, Refusal>(async ({ tx, touch }) => {
    const { id, version } = input
    const design = await tx.design.findFirst({
      where: { id, version, chart: { goneAt: null } },
      select: {
        chartId: true,
        threadLists: { select: { id: true } },
        chart: { select: { _count: { select: { designs: true } } } },
      },
    })
    if (!design) return refused({ kind: 'changed-meanwhile' })
    if (design.chart._count.designs < 2) return refused({ kind: 'only-design' })
    const projects = await readProjects({ tx }, { designId: id })
    if (projects.length > 0) return refused({ kind: 'design-worked', projects })
    const gone = await tx.design.deleteMany({ where: { id, version } })
    if (gone.count === 0) return refused({ kind: 'changed-meanwhile' })
    for (const list of design.threadLists) touch('list', list.id)
    touch('design', id)
    touch('chart', design.chartId)
    return ok({ chartId: design.chartId })
  })
}
