import 'server-only'
import type { Design } from '#lib/chart/design'
import type { ThreadList } from '#lib/chart/thread-list'
import type { ProjectStatus } from '#lib/project/life-cycle'
import { database } from '../client'
import { type PlaceTag, placeTagColumns } from '../place/place-rows'
import { type ChartFacts, chartColumns, toChartFacts } from './chart-rows'
import { designColumns, listColumns, toDesign, toThreadList } from './design-rows'

export type DesignProject = {
  id: string
  status: ProjectStatus
  finishedOn: string | null
  place: PlaceTag | null
}

export type DesignDetail = {
  design: Design
  note: string | null
  version: number
  /** With every design of it, in its order. */
  chart: ChartFacts & { designs: { id: string; title: string }[] }
  themes: { axis: 'season' | 'subject' | 'form'; id: string; name: string }[]
  lists: (ThreadList & { version: number })[]
  projects: DesignProject[]
}

/** A design with its chart, themes, thread lists and projects; null when there is none or its chart is gone. */
export async function findDesign(id: string): Promise<DesignDetail | null> {
  const row = await database().prisma.design.findFirst({
    where: { id, chart: { goneAt: null } },
    select: {
      ...designColumns,
      note: true,
      version: true,
      chart: {
        select: {
          ...chartColumns,
          designs: { select: { id: true, title: true }, orderBy: [{ position: 'asc' }, { id: 'asc' }] },
        },
      },
      themes: { select: { theme: { select: { axis: true, id: true, name: true } } }, orderBy: { theme: { nameKey: 'asc' } } },
      threadLists: { select: listColumns, orderBy: [{ position: 'asc' }, { id: 'asc' }] },
      projects: {
        where: { goneAt: null },
        select: { id: true, status: true, finishedOn: true, place: placeTagColumns },
        orderBy: { id: 'desc' },
      },
    },
  })
  if (!row) return null
  return {
    design: toDesign(row),
    note: row.note,
    version: row.version,
    chart: { ...toChartFacts(row.chart), designs: row.chart.designs },
    themes: row.themes.map(({ theme }) => theme as DesignDetail['themes'][number]),
    lists: row.threadLists.map(toThreadList),
    projects: row.projects as DesignProject[],
  }
}
