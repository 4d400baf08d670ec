import 'server-only'
import type { ChartKind, CoverKind, Design } from '#lib/chart/design'
import type { Weave } from '#lib/cloth/cloth-piece'
import { type StitchTally, stitches } from '#lib/thread/stitches'
import { database } from '../client'
import type { Prisma } from '../generated/sqlite/client'
import { findMergedInto, listMergedIds } from '../merging/merging'
import { type PlaceTag, placeTagColumns } from '../place/place-rows'
import type { DesignInput } from './add-design'
import { type ChartFacts, chartColumns, toChartFacts } from './chart-rows'
import { designColumns, toDesign } from './design-rows'
import { type ThemeAxis, themeAxes } from './ensure-themes'

export type ChartDesign = {
  design: Design
  version: number
  lists: { id: string; name: string; lineCount: number }[]
  /** Projects begun or wished for, whatever has become of them. */
  projectCount: number
}

export type ChartMovement = {
  id: string
  at: Date
  kind: string
  wholeDelta: number
  from: PlaceTag | null
  to: PlaceTag | null
  fromOwnerName: string | null
  toOwnerName: string | null
  importFile: string | null
  who: string | null
  reason: string | null
}

export type ChartDetail = ChartFacts & {
  isGone: boolean
  /** Titles it goes by too: a re-issue's, those of charts merged into it. */
  alsoCalled: string[]
  /** The chart that has its designs now, where it was merged into one. */
  mergedInto: { mergingId: string; keptId: string; keptName: string } | null
  /** In the chart's own order. */
  designs: ChartDesign[]
  /** Newest first. */
  movements: ChartMovement[]
}

const movementsShown = 200

const designOfChart = {
  ...designColumns,
  version: true,
  threadLists: {
    select: { id: true, name: true, _count: { select: { keyLines: true } } },
    orderBy: [{ position: 'asc' }, { id: 'asc' }],
  },
  _count: { select: { projects: { where: { goneAt: null } } } },
} as const satisfies Prisma.DesignSelect

const named = { select: { name: true } } as const

const movementColumns = {
  id: true,
  at: true,
  kind: true,
  wholeDelta: true,
  fromPlace: placeTagColumns,
  toPlace: placeTagColumns,
  fromOwner: named,
  toOwner: named,
  import: { select: { fileName: true } },
  who: true,
  reason: true,
} as const satisfies Prisma.MovementSelect

/** One chart with all its designs, whereabouts and history; one that is gone is found too, so that it can be brought back. */
export async function findChart(id: string): Promise<ChartDetail | null> {
  const row = await database().prisma.chart.findUnique({
    where: { id },
    select: {
      ...chartColumns,
      goneAt: true,
      designs: { select: designOfChart, orderBy: [{ position: 'asc' }, { id: 'asc' }] },
      formerTitles: { select: { title: true }, orderBy: { id: 'asc' } },
    },
  })
  if (!row) return null
  const { goneAt, designs, formerTitles } = row
  // The history of what was merged into it is its own.
  const mergedIds = await listMergedIds('chart', id)
  const movements = await database().prisma.movement.findMany({
    where: { chartId: { in: [id, ...mergedIds] }, NOT: { chartId: { in: mergedIds }, kind: { in: ['merge', 'undo'] } } },
    select: movementColumns,
    orderBy: [{ revision: 'desc' }, { id: 'desc' }],
    take: movementsShown,
  })
  return {
    ...toChartFacts(row),
    isGone: goneAt !== null,
    alsoCalled: formerTitles.map(({ title }) => title),
    mergedInto: goneAt === null ? null : await findMergedInto('chart', id),
    designs: designs.map((design) => ({
      design: toDesign(design),
      version: design.version,
      lists: design.threadLists.map(({ _count, ...list }) => ({ ...list, lineCount: _count.keyLines })),
      projectCount: design._count.projects,
    })),
    movements: movements.map(({ fromPlace, toPlace, fromOwner, toOwner, import: brought, ...movement }) => ({
      ...movement,
      from: fromPlace as PlaceTag | null,
      to: toPlace as PlaceTag | null,
      fromOwnerName: fromOwner?.name ?? null,
      toOwnerName: toOwner?.name ?? null,
      importFile: brought?.fileName ?? null,
    })),
  }
}

/** A design as its form shows it, with the chart it is in. */
export type DesignCard = {
  id: string
  version: number
  input: DesignInput
  chart: { id: string; title: string; kind: ChartKind; designCount: number }
}

/** What is written of a design, exact, for a form that changes it; null when there is none or its chart is gone. */
export async function findDesignCard(id: string): Promise<DesignCard | null> {
  const row = await database().prisma.design.findFirst({
    where: { id, chart: { goneAt: null } },
    select: {
      ...designColumns,
      note: true,
      version: true,
      chart: { select: { id: true, title: true, kind: true, _count: { select: { designs: true } } } },
      themes: { select: { theme: { select: { axis: true, name: true } } }, orderBy: { theme: { nameKey: 'asc' } } },
    },
  })
  if (!row) return null
  const { size, advised, allowance } = toDesign(row)
  const { _count, kind, ...chart } = row.chart
  const themesOn = (axis: ThemeAxis) => row.themes.filter(({ theme }) => theme.axis === axis).map(({ theme }) => theme.name)
  return {
    id,
    version: row.version,
    chart: { ...chart, kind: kind as ChartKind, designCount: _count.designs },
    input: {
      title: row.title,
      size,
      advised: advised && { count: advised.count, over: advised.over },
      weave: row.advisedWeave as Weave | null,
      insistsOnWeave: row.insistsOnWeave,
      clothName: row.advisedCloth,
      coverKind: row.coverKind as CoverKind | null,
      allowance,
      note: row.note,
      themes: { season: themesOn('season'), subject: themesOn('subject'), form: themesOn('form') },
    },
  }
}

/** One thread of a key line, said in full. */
export type KeyThreadNamed = {
  threadId: string
  makerName: string
  lineName: string
  code: string
  name: string | null
  strands: number
  /** Put-ups in hundredths and the put-up they were stated in, its length as sold; null for the line's own. */
  stated: { hundredths: number; putUpTenths: number | null } | null
}

export type KeyLineNamed = {
  symbol: string | null
  note: string | null
  tally: StitchTally | null
  threads: KeyThreadNamed[]
}

export type ThreadListDetail = { id: string; name: string; version: number; keyLines: KeyLineNamed[] }

const byPosition = (a: { position: number }, b: { position: number }): number => a.position - b.position

/** A thread list of a design with its threads named, for the screen that changes it; null when the design has no such list. */
export async function findThreadList(designId: string, listId: string): Promise<ThreadListDetail | null> {
  const counts = Object.fromEntries(stitches.map((stitch) => [stitch, true])) as Record<(typeof stitches)[number], true>
  const row = await database().prisma.threadList.findFirst({
    where: { id: listId, designId, design: { chart: { goneAt: null } } },
    select: {
      id: true,
      name: true,
      version: true,
      keyLines: {
        orderBy: { position: 'asc' },
        select: {
          symbol: true,
          note: true,
          hasTally: true,
          ...counts,
          // Put in order below: an ordered relation is asked for with every key line's id, and SQLite takes no more than 999 of them.
          threads: {
            select: {
              position: true,
              threadId: true,
              strands: true,
              statedHundredths: true,
              statedPutUpTenths: true,
              thread: {
                select: {
                  code: true,
                  name: true,
                  line: { select: { name: true, strands: true, maker: { select: { name: true } } } },
                },
              },
            },
          },
        },
      },
    },
  })
  if (!row) return null
  return {
    ...row,
    keyLines: row.keyLines.map(({ symbol, note, hasTally, threads, ...line }) => ({
      symbol,
      note,
      tally: hasTally
        ? Object.fromEntries(stitches.flatMap((stitch) => (line[stitch] > 0 ? [[stitch, line[stitch]]] : [])))
        : null,
      threads: threads.toSorted(byPosition).map(({ threadId, strands, statedHundredths, statedPutUpTenths, thread }) => ({
        threadId,
        makerName: thread.line.maker.name,
        lineName: thread.line.name,
        code: thread.code,
        name: thread.name,
        strands,
        stated:
          statedHundredths === null
            ? null
            : {
                hundredths: statedHundredths,
                putUpTenths: statedPutUpTenths,
              },
      })),
    })),
  }
}

/** What charts and designs on record say already, to be offered while typing: names in alphabetical order. */
export type ChartOptions = { designers: string[]; clothNames: string[]; themes: Record<ThemeAxis, string[]> }

export async function listChartOptions(): Promise<ChartOptions> {
  const { prisma } = database()
  const held = { chart: { goneAt: null } }
  const [designers, themes, cloth] = await Promise.all([
    prisma.designer.findMany({ where: { charts: { some: held } }, select: { name: true }, orderBy: { nameKey: 'asc' } }),
    prisma.theme.findMany({
      where: { designs: { some: { design: held } } },
      select: { axis: true, name: true },
      orderBy: { nameKey: 'asc' },
    }),
    prisma.design.findMany({
      where: { ...held, advisedCloth: { not: null } },
      select: { advisedCloth: true },
      distinct: ['advisedCloth'],
      orderBy: { advisedCloth: 'asc' },
    }),
  ])
  const on = (axis: ThemeAxis) => themes.filter((theme) => theme.axis === axis).map(({ name }) => name)
  return {
    designers: designers.map(({ name }) => name),
    clothNames: cloth.flatMap(({ advisedCloth }) => advisedCloth ?? []),
    themes: Object.fromEntries(themeAxes.map((axis) => [axis, on(axis)])) as Record<ThemeAxis, string[]>,
  }
}
