import 'server-only'
import type { Place } from '#lib/place/place'
import { narrowsNothing, type ProjectFilter, passesFilter } from '#lib/project/filter-projects'
import { type ProjectStatus, underWayStatuses } from '#lib/project/life-cycle'
import { chunks } from '../bulk-edit/read-bulk-edit'
import type { Transaction } from '../client'
import { database } from '../client'
import type { Prisma } from '../generated/sqlite/client'
import { type PlaceTag, placeColumns, placeTagColumns } from '../place/place-rows'
import { readCrosses } from './stitches-total'

/** A project as lists show it. */
export type ProjectRow = {
  id: string
  status: ProjectStatus
  /** All copies, spares among them. */
  quantity: number
  spares: number
  design: { id: string; title: string; chartId: string; chartTitle: string }
  designers: string[]
  owner: { id: string; name: string }
  place: PlaceTag | null
  forWhom: string | null
  dueOn: string | null
  /** How much it is wished for, 1 to 5; null where nobody said. */
  stars: number | null
  /** yyyy-mm-dd: when it is meant to be begun. */
  plannedOn: string | null
  startedOn: string | null
  finishedOn: string | null
  hoursTenths: number
  stitchesDone: number
  /** Stitches of the whole project by its thread list's counts; null when the key gives none. */
  stitchesTotal: number | null
}

const rowColumns = {
  id: true,
  status: true,
  quantity: true,
  spares: true,
  forWhom: true,
  dueOn: true,
  stars: true,
  plannedOn: true,
  startedOn: true,
  finishedOn: true,
  hoursTenths: true,
  stitchesDone: true,
  threadListId: true,
  owner: { select: { id: true, name: true } },
  place: placeTagColumns,
  design: {
    select: {
      id: true,
      title: true,
      chart: {
        select: {
          id: true,
          title: true,
          designers: { orderBy: { position: 'asc' }, select: { designer: { select: { name: true } } } },
        },
      },
    },
  },
} as const satisfies Prisma.ProjectSelect

type Row = Prisma.ProjectGetPayload<{ select: typeof rowColumns }>

function toProjectRow(row: Row, crosses: ReadonlyMap<string, number>): ProjectRow {
  const { design, threadListId, place, ...rest } = row
  const perPiece = threadListId === null ? 0 : (crosses.get(threadListId) ?? 0)
  return {
    ...rest,
    status: row.status as ProjectStatus,
    place: place as PlaceTag | null,
    design: { id: design.id, title: design.title, chartId: design.chart.id, chartTitle: design.chart.title },
    designers: design.chart.designers.map(({ designer }) => designer.name),
    stitchesTotal: perPiece > 0 ? perPiece * row.quantity : null,
  }
}

async function toProjectRows(rows: Row[]): Promise<ProjectRow[]> {
  const crosses = await readCrosses(
    database().prisma,
    rows.map((row) => row.threadListId),
  )
  return rows.map((row) => toProjectRow(row, crosses))
}

type ByStatus = Partial<Record<ProjectStatus, number>>

/** Projects one page of which is shown, and how many there are in all: of those that are found, and whatever is asked for. */
export type ProjectPage = {
  rows: ProjectRow[]
  /** Of all that are found, in their order. */
  ids: string[]
  total: number
  byStatus: ByStatus
  every: number
  everyByStatus: ByStatus
}

const countByStatus = (projects: readonly { status: string }[]): ByStatus => {
  const counts: ByStatus = {}
  for (const { status } of projects) counts[status as ProjectStatus] = (counts[status as ProjectStatus] ?? 0) + 1
  return counts
}

const namesOfDesign = {
  ...{ id: true, title: true },
  chart: { select: { designers: { select: { designer: { select: { name: true } } } } } },
} as const satisfies Prisma.DesignSelect

/** The ids of those that pass. */
async function findPassing(where: Prisma.ProjectWhereInput, filter: ProjectFilter, today: string): Promise<Set<string>> {
  const { prisma } = database()
  const select = { id: true, status: true, dueOn: true, forWhom: true, designId: true } as const
  const projects = await prisma.project.findMany({ where, select })
  const names = new Map<string, { title: string; designers: string[] }>()
  // What words are looked for in is only read where some are given.
  const designIds = filter.words === '' ? [] : [...new Set(projects.map(({ designId }) => designId))]
  for (const some of chunks(designIds))
    for (const { id, title, chart } of await prisma.design.findMany({ where: { id: { in: some } }, select: namesOfDesign }))
      names.set(id, { title, designers: chart.designers.map(({ designer }) => designer.name) })
  const passing = projects.filter(({ designId, ...project }) => {
    const { title, designers } = names.get(designId) ?? { title: '', designers: [] }
    return passesFilter({ ...project, status: project.status as ProjectStatus, title, designers }, filter, today)
  })
  return new Set(passing.map(({ id }) => id))
}

/**
 * What is under way or wanted: by how near the needle it is, then the sooner due, then the older.
 *
 * @param input.filter  what the list is narrowed to; left out, nothing
 * @param input.today   yyyy-mm-dd; what is late is late by it
 */
export async function listProjectsUnderWay(input: {
  ownerIds: readonly string[]
  page: number
  perPage: number
  filter?: ProjectFilter
  today?: string
}): Promise<ProjectPage> {
  const { prisma } = database()
  const { filter, today = '' } = input
  const where = { ownerId: { in: [...input.ownerIds] }, status: { in: [...underWayStatuses] }, goneAt: null }
  const every = await prisma.project.findMany({ where, select: { id: true, status: true, dueOn: true } })
  const found = filter && !narrowsNothing(filter) ? await findPassing(where, filter, today) : null
  const all = found === null ? [...every] : every.filter(({ id }) => found.has(id))
  const rank = (status: string) => (underWayStatuses as readonly string[]).indexOf(status)
  const byText = (a: string, b: string) => (a < b ? -1 : a > b ? 1 : 0)
  all.sort((a, b) => rank(a.status) - rank(b.status) || byText(a.dueOn ?? '9', b.dueOn ?? '9') || byText(a.id, b.id))
  const ids = all.slice((input.page - 1) * input.perPage, input.page * input.perPage).map(({ id }) => id)
  const rows = await prisma.project.findMany({ where: { id: { in: ids } }, select: rowColumns })
  const at = new Map(ids.map((id, index) => [id, index]))
  rows.sort((a, b) => (at.get(a.id) ?? 0) - (at.get(b.id) ?? 0))
  return {
    rows: await toProjectRows(rows),
    ids: all.map(({ id }) => id),
    ...{ total: all.length, byStatus: countByStatus(all), every: every.length, everyByStatus: countByStatus(every) },
  }
}

export type Finish = ProjectRow & {
  finishing: string | null
  photoFile: string | null
  widthStitches: number | null
  heightStitches: number | null
}

export type YearOfFinishes = { year: string; pieces: number; hoursTenths: number; stitches: number }

/** Finishes, newest first, a page of them; and the figures of every year. */
export async function listFinishes(input: { ownerIds: readonly string[]; page: number; perPage: number }): Promise<{
  rows: Finish[]
  total: number
  years: YearOfFinishes[]
}> {
  const { prisma } = database()
  const where = { ownerId: { in: [...input.ownerIds] }, status: 'finished', goneAt: null }
  const [rows, figures] = await Promise.all([
    prisma.project.findMany({
      where,
      select: {
        ...rowColumns,
        finishing: true,
        photoFile: true,
        design: { select: { ...rowColumns.design.select, widthStitches: true, heightStitches: true } },
      },
      orderBy: [{ finishedOn: 'desc' }, { id: 'desc' }],
      skip: (input.page - 1) * input.perPage,
      take: input.perPage,
    }),
    prisma.project.groupBy({
      by: ['finishedOn'],
      where,
      _sum: { quantity: true, hoursTenths: true, stitchesDone: true },
      _count: { _all: true },
    }),
  ])
  const crosses = await readCrosses(
    database().prisma,
    rows.map((row) => row.threadListId),
  )
  const years = new Map<string, YearOfFinishes>()
  let total = 0
  for (const { finishedOn, _sum: sum, _count: count } of figures) {
    total += count._all
    const year = (finishedOn ?? '').slice(0, 4)
    const sums = years.get(year) ?? { year, pieces: 0, hoursTenths: 0, stitches: 0 }
    sums.pieces += sum.quantity ?? 0
    sums.hoursTenths += sum.hoursTenths ?? 0
    sums.stitches += sum.stitchesDone ?? 0
    years.set(year, sums)
  }
  return {
    rows: rows.map((row) => ({
      ...toProjectRow(row, crosses),
      finishing: row.finishing,
      photoFile: row.photoFile,
      widthStitches: row.design.widthStitches,
      heightStitches: row.design.heightStitches,
    })),
    total,
    years: [...years.values()].sort((a, b) => (a.year < b.year ? 1 : -1)),
  }
}

export type ProjectDetail = ProjectRow & {
  version: number
  over: 1 | 2 | null
  finishing: string | null
  /** Weeks its finishing takes; null follows the settings. */
  finishingWeeks: number | null
  /** What it is due for, as `listOccasions` has it. */
  occasionKey: string | null
  photoFile: string | null
  note: string | null
  threadList: { id: string; name: string } | null
  clothPiece: {
    id: string
    label: string | null
    name: string
    colourName: string | null
    widthUm: number
    heightUm: number
    place: PlaceTag | null
    home: PlaceTag | null
    isGone: boolean
  } | null
  chart: { kind: string; copies: number; place: PlaceTag | null; home: PlaceTag | null }
}

/** One project for its own page; null when there is none. */
export async function findProject(projectId: string): Promise<ProjectDetail | null> {
  const row = await database().prisma.project.findFirst({
    where: { id: projectId, goneAt: null },
    select: {
      ...rowColumns,
      version: true,
      over: true,
      finishing: true,
      finishingWeeks: true,
      occasionKey: true,
      photoFile: true,
      note: true,
      threadList: { select: { id: true, name: true } },
      clothPiece: {
        select: {
          id: true,
          label: true,
          name: true,
          colourName: true,
          widthUm: true,
          heightUm: true,
          goneAt: true,
          currentPlace: placeTagColumns,
          homePlace: placeTagColumns,
        },
      },
      design: {
        select: {
          ...rowColumns.design.select,
          chart: {
            select: {
              ...rowColumns.design.select.chart.select,
              kind: true,
              copies: true,
              currentPlace: placeTagColumns,
              homePlace: placeTagColumns,
            },
          },
        },
      },
    },
  })
  if (!row) return null
  const { clothPiece: piece, design } = row
  return {
    ...toProjectRow(row, await readCrosses(database().prisma, [row.threadListId])),
    version: row.version,
    over: row.over as 1 | 2 | null,
    finishing: row.finishing,
    finishingWeeks: row.finishingWeeks,
    occasionKey: row.occasionKey,
    photoFile: row.photoFile,
    note: row.note,
    threadList: row.threadList,
    clothPiece: piece && {
      id: piece.id,
      label: piece.label,
      name: piece.name,
      colourName: piece.colourName,
      widthUm: piece.widthUm,
      heightUm: piece.heightUm,
      place: (piece.currentPlace ?? piece.homePlace) as PlaceTag | null,
      home: piece.homePlace as PlaceTag | null,
      isGone: piece.goneAt !== null,
    },
    chart: {
      kind: design.chart.kind,
      copies: design.chart.copies,
      place: (design.chart.currentPlace ?? design.chart.homePlace) as PlaceTag | null,
      home: design.chart.homePlace as PlaceTag | null,
    },
  }
}

/** These places with all they are inside, for walking order and labels. */
export async function readPlacesAround(tx: Transaction, placeIds: readonly (string | null)[]): Promise<Map<string, Place>> {
  const ids = [...new Set(placeIds.flatMap((id) => id ?? []))]
  const near = await tx.place.findMany({ where: { id: { in: ids } }, select: placeColumns })
  const aboveIds = new Set(near.flatMap((place) => place.path.split('/').filter((id) => id !== '' && !ids.includes(id))))
  const above = aboveIds.size === 0 ? [] : await tx.place.findMany({ where: { id: { in: [...aboveIds] } }, select: placeColumns })
  return new Map([...near, ...above].map((place) => [place.id, place as Place]))
}
