import 'server-only'
import { differingFields, type MergedField, mergedChart, pairDesigns, type Take, takenUnasked } from '#lib/chart/doubles-merged'
import type { Transaction } from '../client'
import { database } from '../client'
import { checkCharts, factsDiffer, mergingChartOf, mergingColumns } from './merge-charts'
import type { MergingRefusal } from './merging-refusal'

export type PreviewedChart = Omit<ReturnType<typeof mergingChartOf>, 'designerIds'> & {
  version: number
  ownerName: string
  placeLabel: string | null
  homeLabel: string | null
  designers: string[]
  designs: { id: string; title: string }[]
  projects: number
  openLoans: number
}

export type ChartsPreview = {
  kept: PreviewedChart
  gone: PreviewedChart
  /** Null: they can become one. */
  refusal: MergingRefusal | null
  /** What there is to choose, and what stands when nobody does. */
  differing: { field: MergedField; unasked: Take }[]
  /** Fields the kept one says nothing in and takes from the other. */
  filled: MergedField[]
  copies: number
  /** Designs that become one, and those that go over. */
  united: { otherId: string; otherTitle: string; keptTitle: string; differs: boolean }[]
  moved: string[]
}

/** What would become of two charts made one; null when either is not there. Nothing is written. */
export async function previewCharts(asked: { keptId: string; goneId: string }): Promise<ChartsPreview | null> {
  const { prisma } = database()
  const columns = {
    ...mergingColumns,
    homePlace: { select: { label: true } },
    designers: { select: { designerId: true, designer: { select: { name: true } } }, orderBy: { position: 'asc' } },
  } as const
  const read = (id: string) => prisma.chart.findFirst({ where: { id, goneAt: null }, select: columns })
  const [kept, gone] = await Promise.all([read(asked.keptId), read(asked.goneId)])
  if (!kept || !gone) return null
  const shown = async (row: NonNullable<typeof kept>): Promise<PreviewedChart> => ({
    ...mergingChartOf(row),
    version: row.version,
    ownerName: row.owner.name,
    placeLabel: (row.currentPlace ?? row.homePlace)?.label ?? null,
    homeLabel: row.homePlace?.label ?? null,
    designers: row.designers.map(({ designer }) => designer.name),
    designs: row.designs.map(({ id, title }) => ({ id, title })),
    projects: await prisma.project.count({ where: { goneAt: null, design: { chartId: row.id } } }),
    openLoans: await prisma.loanLine.count({ where: { chartId: row.id, backOn: null, loan: { closedOn: null } } }),
  })
  const refusal = await checkCharts(prisma as unknown as Transaction, kept, gone)
  const [mine, theirs] = [mergingChartOf(kept), mergingChartOf(gone)]
  const differing = differingFields(mine, theirs)
  const pairs = pairDesigns(kept.designs, gone.designs)
  const rows = await prisma.design.findMany({ where: { chartId: { in: [kept.id, gone.id] } } })
  const designOf = new Map(rows.map((row) => [row.id, row]))
  const differs = (keptId: string, otherId: string) => {
    const [mineNow, theirsNow] = [designOf.get(keptId), designOf.get(otherId)]
    return mineNow !== undefined && theirsNow !== undefined && factsDiffer(mineNow, theirsNow)
  }
  const titleOf = new Map([...kept.designs, ...gone.designs].map(({ id, title }) => [id, title]))
  return {
    kept: await shown(kept),
    gone: await shown(gone),
    refusal,
    differing: differing.map((field) => ({ field, unasked: takenUnasked(mine, theirs, field) })),
    filled: (['designers', 'edition', 'place', 'boughtOn', 'price', 'outOfPrint', 'cover', 'note', 'parts'] as const).filter(
      (field) => !differing.includes(field) && takenUnasked(mine, theirs, field) === 'other',
    ),
    copies: mergedChart(mine, theirs, {}).chart.copies,
    united: pairs.flatMap(({ otherId, keptId }) =>
      keptId === null
        ? []
        : [
            {
              otherId,
              otherTitle: titleOf.get(otherId) ?? '',
              keptTitle: titleOf.get(keptId) ?? '',
              differs: differs(keptId, otherId),
            },
          ],
    ),
    moved: pairs.flatMap(({ otherId, keptId }) => (keptId === null ? [titleOf.get(otherId) ?? ''] : [])),
  }
}
