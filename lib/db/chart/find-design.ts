import 'server-only'
import type { ChartKind, Design } from '#lib/chart/design'
import type { ThreadList } from '#lib/chart/thread-list'
import type { ProjectStatus } from '#lib/project/life-cycle'
import { database } from '../client'
import type { Prisma } from '../generated/sqlite/client'
import { type PlaceTag, placeTagColumns } from '../place/place-rows'
import { designColumns, listColumns, toDesign, toThreadList } from './design-rows'

export type ChartFacts = {
  id: string
  title: string
  kind: ChartKind
  owner: { id: string; name: string }
  copies: number
  edition: string | null
  partsNeeded: number
  partsHeld: number
  home: PlaceTag | null
  current: PlaceTag | null
  outSince: Date | null
  boughtOn: string | null
  priceMinor: number | null
  note: string | null
  version: number
  designers: { id: string; name: string }[]
  /** Every design of the chart, in its order. */
  designs: { id: string; title: string }[]
}

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
  chart: ChartFacts
  themes: { axis: 'season' | 'subject' | 'form'; id: string; name: string }[]
  lists: (ThreadList & { version: number })[]
  projects: DesignProject[]
}

const chartColumns = {
  id: true,
  title: true,
  kind: true,
  copies: true,
  edition: true,
  partsNeeded: true,
  partsHeld: true,
  outSince: true,
  boughtOn: true,
  priceMinor: true,
  note: true,
  version: true,
  owner: { select: { id: true, name: true } },
  homePlace: placeTagColumns,
  currentPlace: placeTagColumns,
  designers: { orderBy: { position: 'asc' }, select: { designer: { select: { id: true, name: true } } } },
  designs: { orderBy: [{ position: 'asc' }, { id: 'asc' }], select: { id: true, title: true } },
} satisfies Prisma.ChartSelect

/** A design with its chart, themes, thread lists and projects; null when there is none or its chart is gone. */
export async function findDesign(id: string): Promise<DesignDetail | null> {
  const row = await database().prisma.design.findFirst({
    where: { id, chart: { goneAt: null } },
    select: {
      ...designColumns,
      note: true,
      version: true,
      chart: { select: chartColumns },
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
  const { homePlace, currentPlace, designers, kind, ...chart } = row.chart
  return {
    design: toDesign(row),
    note: row.note,
    version: row.version,
    chart: {
      ...chart,
      kind: kind as ChartKind,
      home: homePlace as PlaceTag | null,
      current: (currentPlace ?? homePlace) as PlaceTag | null,
      designers: designers.map(({ designer }) => designer),
    },
    themes: row.themes.map(({ theme }) => theme as DesignDetail['themes'][number]),
    lists: row.threadLists.map(toThreadList),
    projects: row.projects as DesignProject[],
  }
}
