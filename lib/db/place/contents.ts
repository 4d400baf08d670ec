import 'server-only'
import type { Weave } from '#lib/cloth/cloth-piece'
import type { Lab } from '#lib/colour/lab'
import type { NotionKind } from '#lib/notion/notion'
import { byKindAndSize } from '#lib/notion/size'
import { compareLabels } from '#lib/place/walk-order'
import type { Count } from '#lib/quantity/count'
import { compareExact, isOut, type PartCertainty } from '#lib/stock/batch'
import { compareCodes } from '#lib/thread/code-order'
import { database } from '../client'
import { clothLookColumns } from '../cloth/cloth-rows'
import type { Prisma } from '../generated/sqlite/client'
import { labOf } from '../lab-of'
import { openProjects } from './place-counts'
import { type PlaceTag, placeTagColumns } from './place-rows'

/** Where a thing lives and is. `isOut`: somewhere that is not its home. */
export type Whereabouts = { home: PlaceTag | null; current: PlaceTag | null; isOut: boolean; outSince: Date | null }

export type ThreadHere = Whereabouts & {
  noun: 'thread'
  id: string
  version: number
  threadId: string
  makerName: string
  lineName: string
  code: string
  name: string | null
  lab: Lab | null
  lot: string | null
  wholePutUps: number
  partStrandTenths: number
  partCertainty: PartCertainty
  strands: number
  putUpWord: string
}
type ClothHere = Whereabouts & {
  noun: 'cloth'
  id: string
  version: number
  label: string | null
  name: string
  colourName: string | null
  lab: Lab | null
  weave: Weave
  ends: Count
  picks: Count
  widthUm: number
  heightUm: number
}
type ChartHere = Whereabouts & {
  noun: 'chart'
  id: string
  version: number
  title: string
  kind: string
  copies: number
  designerNames: string[]
}
type NotionHere = Whereabouts & {
  noun: 'notion'
  id: string
  version: number
  kind: NotionKind
  name: string
  size: string | null
  count: number
}
export type ThingHere = ThreadHere | ClothHere | ChartHere | NotionHere

const where = { homePlace: placeTagColumns, currentPlace: placeTagColumns, outSince: true } as const

export const threadColumns = {
  id: true,
  version: true,
  threadId: true,
  lot: true,
  wholePutUps: true,
  partStrandTenths: true,
  partCertainty: true,
  putUpWord: true,
  thread: {
    select: {
      code: true,
      name: true,
      labL: true,
      labA: true,
      labB: true,
      line: { select: { name: true, strands: true, putUpWord: true, maker: { select: { name: true } } } },
    },
  },
  ...where,
} as const
export const clothColumns = { id: true, version: true, ...clothLookColumns, ...where } as const
export const chartColumns = {
  id: true,
  version: true,
  title: true,
  kind: true,
  copies: true,
  designers: { select: { designer: { select: { name: true } } }, orderBy: { position: 'asc' } },
  ...where,
} as const

export const notionColumns = { id: true, version: true, kind: true, name: true, size: true, count: true, ...where } as const

type WhereRow = { homePlace: unknown; currentPlace: unknown; outSince: Date | null }

function whereabouts(row: WhereRow): Whereabouts {
  const home = row.homePlace as PlaceTag | null
  const current = row.currentPlace as PlaceTag | null
  return {
    home,
    current: current ?? home,
    isOut: isOut({ homePlaceId: home?.id ?? null, currentPlaceId: current?.id ?? null }),
    outSince: row.outSince,
  }
}

export const readThread = (row: Prisma.BatchGetPayload<{ select: typeof threadColumns }>): ThreadHere => ({
  noun: 'thread',
  ...whereabouts(row),
  id: row.id,
  version: row.version,
  threadId: row.threadId,
  makerName: row.thread.line.maker.name,
  lineName: row.thread.line.name,
  code: row.thread.code,
  name: row.thread.name,
  lab: labOf(row.thread),
  lot: row.lot,
  wholePutUps: row.wholePutUps,
  partStrandTenths: row.partStrandTenths,
  partCertainty: row.partCertainty as PartCertainty,
  strands: row.thread.line.strands,
  putUpWord: row.putUpWord ?? row.thread.line.putUpWord,
})

export const readCloth = (row: Prisma.ClothPieceGetPayload<{ select: typeof clothColumns }>): ClothHere => ({
  noun: 'cloth',
  ...whereabouts(row),
  id: row.id,
  version: row.version,
  label: row.label,
  name: row.name,
  colourName: row.colourName,
  lab: labOf(row),
  weave: row.weave as Weave,
  ends: { threads: row.endsThreads, perUm: row.endsPerUm },
  picks: { threads: row.picksThreads, perUm: row.picksPerUm },
  widthUm: row.widthUm,
  heightUm: row.heightUm,
})

export const readChart = (row: Prisma.ChartGetPayload<{ select: typeof chartColumns }>): ChartHere => ({
  noun: 'chart',
  ...whereabouts(row),
  id: row.id,
  version: row.version,
  title: row.title,
  kind: row.kind,
  copies: row.copies,
  designerNames: row.designers.map(({ designer }) => designer.name),
})

export const readNotion = (row: Prisma.NotionGetPayload<{ select: typeof notionColumns }>): NotionHere => ({
  noun: 'notion',
  ...whereabouts(row),
  id: row.id,
  version: row.version,
  kind: row.kind as NotionKind,
  name: row.name,
  size: row.size,
  count: row.count,
})

/** Maker, line, then the codes in the order of a drawer; lots of one thread beside each other. */
const byNumber = (a: ThreadHere, b: ThreadHere): number =>
  compareExact(a.makerName, b.makerName) ||
  compareExact(a.lineName, b.lineName) ||
  compareCodes(a.code, b.code) ||
  compareExact(a.lot ?? '', b.lot ?? '') ||
  compareExact(a.id, b.id)

const byClothLabel = (a: ClothHere, b: ClothHere): number =>
  compareLabels(a.label ?? '', b.label ?? '') || compareExact(a.name, b.name) || compareExact(a.id, b.id)

type ProjectHere = { id: string; title: string; status: string; quantity: number; forWhom: string | null }

/** Charts shown of one place at a time; threads and cloth of a place are always few enough. */
export const chartsPerPage = 100

export type PlaceContents = {
  /** In number order: what lives in these places, in or out, and what lives elsewhere but is here. */
  threads: ThreadHere[]
  cloth: ClothHere[]
  /** One page of them, by title. */
  charts: ChartHere[]
  chartCount: number
  /** By kind and size. */
  notions: NotionHere[]
  projects: ProjectHere[]
  /** Things of owners not asked for that lie here or live here. */
  othersCount: number
}

/** What lives or lies in any of these places themselves (not what is inside them further down), of these owners' goods. */
export async function findPlaceContents({
  placeIds,
  compartmentsOf = null,
  ownerIds,
  chartPage = 1,
}: {
  placeIds: readonly string[]
  /** And what is in the compartments of this place, however many it has. */
  compartmentsOf?: string | null
  ownerIds: readonly string[]
  /** From 1. */
  chartPage?: number
}): Promise<PlaceContents> {
  const { prisma } = database()
  const compartments = compartmentsOf === null ? [] : [{ parentId: compartmentsOf, kind: 'compartment' }]
  const inThese = { OR: [{ id: { in: [...placeIds] } }, ...compartments] }
  const lies = { goneAt: null, OR: [{ homePlace: inThese }, { currentPlace: inThese }] }
  const owned = { ...lies, ownerId: { in: [...ownerIds] } }
  const others = { ...lies, ownerId: { notIn: [...ownerIds] } }
  const [threads, cloth, charts, chartCount, notions, projects, ...othersCounts] = await Promise.all([
    prisma.batch.findMany({ where: owned, select: threadColumns }),
    prisma.clothPiece.findMany({ where: owned, select: clothColumns }),
    prisma.chart.findMany({
      where: owned,
      select: chartColumns,
      orderBy: [{ titleKey: 'asc' }, { id: 'asc' }],
      skip: (chartPage - 1) * chartsPerPage,
      take: chartsPerPage,
    }),
    prisma.chart.count({ where: owned }),
    prisma.notion.findMany({ where: owned, select: notionColumns }),
    prisma.project.findMany({
      where: { ...openProjects, place: inThese, ownerId: { in: [...ownerIds] } },
      select: { id: true, status: true, quantity: true, forWhom: true, design: { select: { title: true } } },
      orderBy: { id: 'asc' },
    }),
    prisma.batch.count({ where: others }),
    prisma.clothPiece.count({ where: others }),
    prisma.chart.count({ where: others }),
    prisma.notion.count({ where: others }),
  ])
  return {
    threads: threads.map(readThread).sort(byNumber),
    cloth: cloth.map(readCloth).sort(byClothLabel),
    charts: charts.map(readChart),
    chartCount,
    notions: notions.map(readNotion).sort(byKindAndSize),
    projects: projects.map(({ design, ...row }) => ({ ...row, title: design.title })),
    othersCount: othersCounts.reduce((sum, count) => sum + count, 0),
  }
}
