import 'server-only'
import type { Weave } from '#lib/cloth/cloth-piece'
import type { Lab } from '#lib/colour/lab'
import { compareLabels } from '#lib/place/walk-order'
import type { Count } from '#lib/quantity/count'
import { isOut, type PartCertainty } from '#lib/stock/batch'
import { compareCodes } from '#lib/thread/code-order'
import { database } from '../client'
import type { Prisma } from '../generated/sqlite/client'
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
export type ThingHere = ThreadHere | ClothHere | ChartHere

type ProjectHere = { id: string; title: string; status: string; quantity: number; forWhom: string | null }

/** Charts shown of one place at a time; threads and cloth of a place are always few enough. */
export const chartsPerPage = 100
/** What is out is a list to work through, not an archive. */
export const outShown = 500

const where = { homePlace: placeTagColumns, currentPlace: placeTagColumns, outSince: true } as const

const threadColumns = {
  id: true,
  version: true,
  threadId: true,
  lot: true,
  wholePutUps: true,
  partStrandTenths: true,
  partCertainty: true,
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
const clothColumns = {
  id: true,
  version: true,
  label: true,
  name: true,
  colourName: true,
  labL: true,
  labA: true,
  labB: true,
  weave: true,
  endsThreads: true,
  endsPerUm: true,
  picksThreads: true,
  picksPerUm: true,
  widthUm: true,
  heightUm: true,
  ...where,
} as const
const chartColumns = {
  id: true,
  version: true,
  title: true,
  kind: true,
  copies: true,
  designers: { select: { designer: { select: { name: true } } }, orderBy: { position: 'asc' } },
  ...where,
} as const

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

export const labOf = (row: { labL: number | null; labA: number | null; labB: number | null }): Lab | null =>
  row.labL === null || row.labA === null || row.labB === null ? null : { L: row.labL, a: row.labA, b: row.labB }

const readThread = (row: Prisma.BatchGetPayload<{ select: typeof threadColumns }>): ThreadHere => ({
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
  putUpWord: row.thread.line.putUpWord,
})

const readCloth = (row: Prisma.ClothPieceGetPayload<{ select: typeof clothColumns }>): ClothHere => ({
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

const readChart = (row: Prisma.ChartGetPayload<{ select: typeof chartColumns }>): ChartHere => ({
  noun: 'chart',
  ...whereabouts(row),
  id: row.id,
  version: row.version,
  title: row.title,
  kind: row.kind,
  copies: row.copies,
  designerNames: row.designers.map(({ designer }) => designer.name),
})

const byText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0)

/** Maker, line, then the codes in the order of a drawer; lots of one thread beside each other. */
const byNumber = (a: ThreadHere, b: ThreadHere): number =>
  byText(a.makerName, b.makerName) ||
  byText(a.lineName, b.lineName) ||
  compareCodes(a.code, b.code) ||
  byText(a.lot ?? '', b.lot ?? '') ||
  byText(a.id, b.id)

const byClothLabel = (a: ClothHere, b: ClothHere): number =>
  compareLabels(a.label ?? '', b.label ?? '') || byText(a.name, b.name) || byText(a.id, b.id)

export type PlaceContents = {
  /** In number order: what lives in these places, in or out, and what lives elsewhere but is here. */
  threads: ThreadHere[]
  cloth: ClothHere[]
  /** One page of them, by title. */
  charts: ChartHere[]
  chartCount: number
  projects: ProjectHere[]
  /** Things of owners not asked for that lie here or live here. */
  othersCount: number
}

/** What lives or lies in any of these places themselves (not what is inside them further down), of these owners' goods. */
export async function findPlaceContents({
  placeIds,
  ownerIds,
  chartPage = 1,
}: {
  placeIds: readonly string[]
  ownerIds: readonly string[]
  /** From 1. */
  chartPage?: number
}): Promise<PlaceContents> {
  const { prisma } = database()
  const inThese = { in: [...placeIds] }
  const lies = { goneAt: null, OR: [{ homePlaceId: inThese }, { currentPlaceId: inThese }] }
  const owned = { ...lies, ownerId: { in: [...ownerIds] } }
  const others = { ...lies, ownerId: { notIn: [...ownerIds] } }
  const [threads, cloth, charts, chartCount, projects, ...othersCounts] = await Promise.all([
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
    prisma.project.findMany({
      where: { ...openProjects, placeId: inThese, ownerId: { in: [...ownerIds] } },
      select: { id: true, status: true, quantity: true, forWhom: true, design: { select: { title: true } } },
      orderBy: { id: 'asc' },
    }),
    prisma.batch.count({ where: others }),
    prisma.clothPiece.count({ where: others }),
    prisma.chart.count({ where: others }),
  ])
  return {
    threads: threads.map(readThread).sort(byNumber),
    cloth: cloth.map(readCloth).sort(byClothLabel),
    charts: charts.map(readChart),
    chartCount,
    projects: projects.map(({ design, ...row }) => ({ ...row, title: design.title })),
    othersCount: othersCounts.reduce((sum, count) => sum + count, 0),
  }
}

export type OutThing = ThingHere & {
  /** The project whose kit lies where it is now. */
  projects: { id: string; title: string }[]
}

const byOutSince = (a: ThingHere, b: ThingHere): number =>
  (a.outSince?.getTime() ?? Number.MAX_SAFE_INTEGER) - (b.outSince?.getTime() ?? Number.MAX_SAFE_INTEGER) || byText(a.id, b.id)

/**
 * What is out, longest first, of these owners' goods: everything that is not in its home, or only what lives inside one place.
 *
 * @param insidePath  a place's path; null for all places
 */
export async function listOut(ownerIds: readonly string[], insidePath: string | null): Promise<OutThing[]> {
  const { prisma } = database()
  const inside = insidePath === null ? {} : { homePlace: { path: { startsWith: insidePath } } }
  const common = { goneAt: null, ownerId: { in: [...ownerIds] }, ...inside, homePlaceId: { not: null } }
  const list = {
    orderBy: [{ outSince: { sort: 'asc' as const, nulls: 'last' as const } }, { id: 'asc' as const }],
    take: outShown,
  }
  const away = (home: unknown) => ({
    AND: [{ currentPlaceId: { not: null } }, { NOT: { currentPlaceId: { equals: home as string } } }],
  })
  const [threads, cloth, charts] = await Promise.all([
    prisma.batch.findMany({ where: { ...common, ...away(prisma.batch.fields.homePlaceId) }, select: threadColumns, ...list }),
    prisma.clothPiece.findMany({
      where: { ...common, ...away(prisma.clothPiece.fields.homePlaceId) },
      select: clothColumns,
      ...list,
    }),
    prisma.chart.findMany({ where: { ...common, ...away(prisma.chart.fields.homePlaceId) }, select: chartColumns, ...list }),
  ])
  const things: ThingHere[] = [...threads.map(readThread), ...cloth.map(readCloth), ...charts.map(readChart)]
  things.sort(byOutSince).splice(outShown)

  const placeIds = [...new Set(things.flatMap(({ current }) => current?.id ?? []))]
  const projects = await prisma.project.findMany({
    where: { ...openProjects, placeId: { in: placeIds } },
    select: { id: true, placeId: true, design: { select: { title: true } } },
    orderBy: { id: 'asc' },
  })
  return things.map((thing) => ({
    ...thing,
    projects: projects
      .filter(({ placeId }) => placeId === thing.current?.id)
      .map(({ id, design }) => ({ id, title: design.title })),
  }))
}
