import 'server-only'
import type { ChartKind } from '#lib/chart/design'
import { textKey } from '#lib/quantity/text-key'
import { ok, type Result, refused } from '#lib/result'
import { newId } from '../new-id'
import { write } from '../write'
import type { Write } from '../write-gate'
import { type DesignInput, writeDesign } from './add-design'
import type { ChartRefusal, HeldNamesake } from './chart-refusal'
import { ensureChartPlace, journalChart } from './claim-chart'
import { ensureDesigners } from './ensure-designers'

/** What is written of a chart, apart from where it is. */
export type ChartInput = {
  title: string
  /** Names, the first named first; new ones are made. */
  designers: readonly string[]
  kind: ChartKind
  ownerId: string
  copies: number
  edition: string | null
  partsNeeded: number
  partsHeld: number
  /** yyyy-mm-dd */
  boughtOn: string | null
  priceMinor: number | null
  note: string | null
}

export type AddChartRefusal = Extract<ChartRefusal, { kind: 'no-such-owner' | 'title-held' | 'is-a-file' | 'kept-by-record' }>

/** A chart with its first design. `placeLabel`: where it lives; one that is not known yet is made. */
export type NewChart = ChartInput & { placeLabel: string | null; isAnother: boolean; design: DesignInput }

/**
 * A chart comes in with its first design. A place that is not known yet is made.
 *
 * @param input.isAnother  It is known that a chart of this title is held, and this is another; else that is refused.
 */
export function addChart(input: NewChart): Promise<Result<{ chartId: string; designId: string }, AddChartRefusal>> {
  return write<{ chartId: string; designId: string }, AddChartRefusal>((open) => addChartIn(open, input))
}

/** The same as part of a larger write. */
export async function addChartIn(
  open: Write,
  input: NewChart,
): Promise<Result<{ chartId: string; designId: string }, AddChartRefusal>> {
  const { tx, touch } = open
  const { placeLabel, isAnother, design, designers, ...chart } = input
  const { ownerId, kind, copies, title } = chart
  const owner = await tx.owner.findUnique({ where: { id: ownerId }, select: { id: true } })
  if (!owner) return refused({ kind: 'no-such-owner', ownerId })
  if (!isAnother) {
    const charts = await namesakes(open, title)
    if (charts.length > 0) return refused({ kind: 'title-held', charts })
  }
  const place = placeLabel === null ? null : await ensureChartPlace(open, { label: placeLabel, chartKind: kind })
  if (place && !place.ok) return place
  const placeId = place?.value.id ?? null
  const chartId = newId()
  await tx.chart.create({
    data: { id: chartId, ...chart, titleKey: textKey(title), homePlaceId: placeId, currentPlaceId: placeId },
  })
  await writeDesigners(open, chartId, designers)
  const designId = newId()
  await writeDesign(open, { id: designId, chartId, position: 0, design })
  await journalChart(open, { kind: 'receive', chartId, wholeDelta: copies, toPlaceId: placeId, toOwnerId: ownerId })
  touch('chart', chartId)
  return ok({ chartId, designId })
}

async function namesakes({ tx }: Write, title: string): Promise<HeldNamesake[]> {
  const rows = await tx.chart.findMany({
    where: { OR: [{ titleKey: textKey(title) }, { formerTitles: { some: { titleKey: textKey(title) } } }], goneAt: null },
    select: {
      id: true,
      title: true,
      copies: true,
      owner: { select: { name: true } },
      homePlace: { select: { label: true } },
      currentPlace: { select: { label: true } },
    },
    orderBy: { id: 'asc' },
    take: 20,
  })
  return rows.map(({ owner, homePlace, currentPlace, ...chart }) => ({
    ...chart,
    ownerName: owner.name,
    placeLabel: (currentPlace ?? homePlace)?.label ?? null,
  }))
}

/** The chart's designers are these and no others. */
export async function writeDesigners(
  open: Pick<Write, 'tx' | 'touch'>,
  chartId: string,
  names: readonly string[],
): Promise<void> {
  const designerIds = await ensureDesigners(open, names)
  await open.tx.chartDesigner.deleteMany({ where: { chartId } })
  await open.tx.chartDesigner.createMany({ data: designerIds.map((designerId, position) => ({ chartId, designerId, position })) })
}
