import 'server-only'
import { z } from 'zod'
import type { ChartBulkChange, ChartBulkLeft, ChartBulkStep } from '#lib/chart/plan-chart-bulk'
import { type BulkEditHead, findWithSteps, listHeads } from '../bulk-edit/heads'
import { chunks } from '../bulk-edit/read-bulk-edit'
import { database } from '../client'

const valueSchema = z.union([
  z.number(),
  z.string(),
  z.boolean(),
  z.null(),
  z.object({ homePlaceId: z.string().nullable(), currentPlaceId: z.string().nullable() }),
])
const line = { id: z.string(), chartId: z.string(), designId: z.string().nullable() }

const keptSchema = z.object({
  charts: z.discriminatedUnion('kind', [
    z.object({ kind: z.literal('home'), toPlaceId: z.string() }),
    z.object({ kind: z.literal('owner'), toOwnerId: z.string() }),
    z.object({ kind: z.literal('gone'), ending: z.enum(['passed on', 'lost', 'slip']) }),
    z.object({ kind: z.literal('add-theme'), axis: z.enum(['season', 'subject', 'form']), name: z.string() }),
    z.object({ kind: z.literal('take-theme'), themeId: z.string() }),
    z.object({ kind: z.literal('stars'), stars: z.number().int().nullable() }),
  ]),
  themeId: z.string().nullable(),
  steps: z.array(z.object({ ...line, before: valueSchema, versionAfter: z.number().int(), outSince: z.string().nullish() })),
  left: z.array(z.object({ ...line, why: z.enum(['changed-since', 'gone', 'place-gone']) })),
})

export type KeptChartBulk = {
  change: ChartBulkChange
  /** The theme that was given or taken. */
  themeId: string | null
  steps: ChartBulkStep[]
  /** Once undone: what was left alone. */
  left: ChartBulkLeft[]
}

/** How such a change begins in the table it shares with changes of threads and of places; their readers tell them apart by this. */
export const chartStepsText = ({ change, themeId, steps, left }: KeptChartBulk): string =>
  JSON.stringify({ charts: change, themeId, steps, left })

export const ofCharts = { stepsJson: { startsWith: '{"charts":' } }

/** @throws what zod throws when it is not of that shape */
export function readChartSteps(json: string): KeptChartBulk {
  const { charts, themeId, steps, left } = keptSchema.parse(JSON.parse(json))
  return {
    ...{ change: charts, themeId, left },
    steps: steps.map(({ outSince, ...step }) => ({ ...step, ...(outSince && { outSince }) })),
  }
}

/** The changes made to many charts, latest first. */
export const listChartBulks = (limit: number): Promise<BulkEditHead[]> => listHeads(ofCharts, limit)

/** One change with all its steps, or null. */
export async function findChartBulk(id: string): Promise<(BulkEditHead & KeptChartBulk) | null> {
  const row = await findWithSteps(id, ofCharts)
  if (!row) return null
  const { stepsJson, ...head } = row
  return { ...head, ...readChartSteps(stepsJson) }
}

/** What the lines of a change are called. What is gone keeps its name. */
export type ChartBulkNames = {
  charts: Map<string, string>
  designs: Map<string, string>
  /** Labels of places, and names of owners, by id. */
  places: Map<string, string>
  owners: Map<string, string>
}

export async function nameChartLines(lines: readonly { chartId: string; designId: string | null }[]): Promise<ChartBulkNames> {
  const { prisma } = database()
  const [places, owners] = await Promise.all([
    prisma.place.findMany({ select: { id: true, label: true } }),
    prisma.owner.findMany({ select: { id: true, name: true } }),
  ])
  const names: ChartBulkNames = {
    ...{ charts: new Map(), designs: new Map() },
    places: new Map(places.map(({ id, label }) => [id, label])),
    owners: new Map(owners.map(({ id, name }) => [id, name])),
  }
  const titled = { id: true, title: true } as const
  for (const ids of chunks([...new Set(lines.map(({ chartId }) => chartId))]))
    for (const { id, title } of await prisma.chart.findMany({ where: { id: { in: ids } }, select: titled }))
      names.charts.set(id, title)
  for (const ids of chunks([...new Set(lines.flatMap(({ designId }) => designId ?? []))]))
    for (const { id, title } of await prisma.design.findMany({ where: { id: { in: ids } }, select: titled }))
      names.designs.set(id, title)
  return names
}
