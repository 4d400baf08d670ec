import 'server-only'
import { createHash } from 'node:crypto'
import {
  type BulkChart,
  type BulkDesign,
  type ChartBulkChange,
  type ChartBulkLine,
  isOfCharts,
  planChartBulk,
} from '#lib/chart/plan-chart-bulk'
import { grouped } from '#lib/grouped'
import { underWayStatuses } from '#lib/project/life-cycle'
import { textKey } from '#lib/quantity/text-key'
import { chunks } from '../bulk-edit/read-bulk-edit'
import { database, type Transaction } from '../client'

/** Designs one change may be made to: all of a shop's. */
export const mostDesigns = 30_000

export type ChartBulkRequest = {
  /** In the order they are to be shown. A change of charts is made to the charts they are in. */
  designIds: readonly string[]
  change: ChartBulkChange
}

export type ChartBulkReading = {
  lines: ChartBulkLine[]
  /** By the id of a line, as it stands. */
  versions: Map<string, number>
  /** By chart: since when it is out. */
  outSince: Map<string, Date | null>
  designsOf: Map<string, string[]>
  /** The same only as long as the lines are, with every version they rest on. */
  fingerprint: string
}

type Reader = Pick<Transaction, 'chart' | 'design' | 'designTheme' | 'project' | 'place' | 'theme'>

/** What a change would do to the charts of these designs as they stand. What is gone is passed over. */
export async function readChartBulk(tx: Reader, { designIds, change }: ChartBulkRequest): Promise<ChartBulkReading> {
  const ids = [...new Set(designIds)]
  const designs: { id: string; chartId: string; version: number }[] = []
  for (const some of chunks(ids))
    designs.push(
      ...(await tx.design.findMany({
        where: { id: { in: some }, chart: { goneAt: null } },
        select: { id: true, chartId: true, version: true },
      })),
    )
  const turn = new Map(ids.map((id, at) => [id, at]))
  designs.sort((a, b) => (turn.get(a.id) as number) - (turn.get(b.id) as number))
  const versions = new Map<string, number>()
  const outSince = new Map<string, Date | null>()
  const state = isOfCharts(change)
    ? await readCharts(tx, [...new Set(designs.map(({ chartId }) => chartId))], { versions, outSince })
    : await readDesigns(tx, designs, change, versions)
  const place =
    change.kind === 'home' ? await tx.place.findUnique({ where: { id: change.toPlaceId }, select: { kind: true } }) : null
  const lines = planChartBulk({ change, ...state, toPlaceKind: place?.kind ?? null })
  const restsOn = lines.map(({ id, outcome }) => [id, outcome.kind, versions.get(id) ?? null])
  return {
    lines,
    versions,
    outSince,
    designsOf: state.designsOf,
    fingerprint: createHash('sha256')
      .update(JSON.stringify([change, restsOn]))
      .digest('base64url'),
  }
}

type State = { charts: BulkChart[]; designs: BulkDesign[]; designsOf: Map<string, string[]> }

async function readCharts(
  tx: Reader,
  chartIds: readonly string[],
  { versions, outSince }: { versions: Map<string, number>; outSince: Map<string, Date | null> },
): Promise<State> {
  const found = new Map<string, BulkChart>()
  const designsOf = new Map<string, string[]>()
  for (const some of chunks(chartIds)) {
    const ofThese = { chartId: { in: some } }
    const [rows, designs, projects] = await Promise.all([
      tx.chart.findMany({
        where: { id: { in: some } },
        select: {
          ...{ id: true, kind: true, ownerId: true, copies: true, homePlaceId: true, currentPlaceId: true },
          ...{ outSince: true, version: true },
        },
      }),
      tx.design.findMany({ where: ofThese, select: { id: true, chartId: true } }),
      tx.project.findMany({
        where: { goneAt: null, status: { in: [...underWayStatuses] }, design: ofThese },
        select: { design: { select: { chartId: true } } },
      }),
    ])
    for (const { version, outSince: since, ...row } of rows) {
      found.set(row.id, { ...row, inWork: 0 })
      versions.set(row.id, version)
      outSince.set(row.id, since)
    }
    for (const { design } of projects) (found.get(design.chartId) as BulkChart).inWork++
    for (const [chartId, of] of grouped(designs, ({ chartId }) => chartId)) {
      designsOf.set(
        chartId,
        of.map(({ id }) => id),
      )
    }
  }
  return { charts: chartIds.flatMap((id) => found.get(id) ?? []), designs: [], designsOf }
}

async function readDesigns(
  tx: Reader,
  rows: readonly { id: string; chartId: string; version: number }[],
  change: ChartBulkChange,
  versions: Map<string, number>,
): Promise<State> {
  const themeId =
    change.kind === 'take-theme'
      ? change.themeId
      : change.kind === 'add-theme'
        ? (await tx.theme.findFirst({ where: { axis: change.axis, nameKey: textKey(change.name) }, select: { id: true } }))?.id
        : undefined
  const themed = new Set<string>()
  const wishes = new Map<string, { projectId: string; stars: number | null }[]>()
  for (const some of chunks(rows)) {
    const designId = { in: some.map(({ id }) => id) }
    if (themeId !== undefined) {
      const has = await tx.designTheme.findMany({ where: { themeId, designId }, select: { designId: true } })
      for (const one of has) themed.add(one.designId)
    }
    if (change.kind === 'stars') {
      const projects = await tx.project.findMany({
        where: { designId, goneAt: null, status: 'wanted' },
        select: { id: true, designId: true, stars: true, version: true },
        orderBy: { id: 'asc' },
      })
      for (const { id, version, stars, designId: of } of projects) {
        wishes.set(of, [...(wishes.get(of) ?? []), { projectId: id, stars }])
        versions.set(id, version)
      }
    }
    for (const { id, version } of some) versions.set(id, version)
  }
  return {
    charts: [],
    designs: rows.map(({ id, chartId }) => ({ id, chartId, hasTheme: themed.has(id), wishes: wishes.get(id) ?? [] })),
    designsOf: new Map(),
  }
}

/** The same outside a write, for a look before it is done. */
export const previewChartBulk = (request: ChartBulkRequest): Promise<ChartBulkReading> =>
  readChartBulk(database().prisma, request)
