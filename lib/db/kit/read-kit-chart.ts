import 'server-only'
import type { ChartKind } from '#lib/chart/design'
import { chartsWanted } from '#lib/project/kit/reckoning'
import { isOut } from '#lib/stock/batch'
import { database } from '../client'
import { openProjects } from '../place/place-counts'

export type KitChart = {
  id: string
  title: string
  kind: ChartKind
  isFile: boolean
  priceMinor: number | null
  /** On record with the project's owner. */
  onRecord: number
  /** Lent, or the only one is out somewhere else than in this project's bag. */
  away: number
  /** Wanted by batches of kits that were started before this one. */
  elsewhere: number
  /** Gone into kits of this batch that are closed. */
  packed: number
  /** For this batch, those that are packed among them. */
  copies: number
  placeIds: string[]
}

type KitWork = { id: string; ownerId: string; placeId: string | null; chartId: string; status: string }

/** The bought copies of a project's chart, and how many of them its kits can have: those at home that no earlier batch wants. */
export async function readKitChart(project: KitWork): Promise<KitChart> {
  const { prisma } = database()
  const [chart, others, bags, lent] = await Promise.all([
    prisma.chart.findUniqueOrThrow({
      where: { id: project.chartId },
      select: {
        ...{ id: true, title: true, kind: true, copies: true, ownerId: true, priceMinor: true, goneAt: true },
        ...{ homePlaceId: true, currentPlaceId: true },
      },
    }),
    prisma.project.findMany({
      where: {
        ...{ ...openProjects, ownerId: project.ownerId, quantity: { gt: 1 }, design: { chartId: project.chartId } },
        id: { lt: project.id },
      },
      select: { id: true, quantity: true, spares: true },
    }),
    prisma.kitBag.groupBy({
      by: ['projectId', 'isSpare', 'status'],
      where: { status: { in: ['sealed', 'sold'] }, project: { ownerId: project.ownerId, design: { chartId: project.chartId } } },
      _count: { _all: true },
    }),
    prisma.loanLine.findMany({
      where: { chartId: project.chartId, backOn: null, loan: { closedOn: null, kind: { not: 'borrow' } } },
      select: { count: true },
    }),
  ])
  const { goneAt, ownerId, homePlaceId, currentPlaceId, copies: recorded, ...rest } = chart
  const kind = chart.kind as ChartKind
  const isFile = kind === 'file'
  const onRecord = isFile || goneAt !== null || ownerId !== project.ownerId ? 0 : recorded
  const isAway = isOut(chart) && currentPlaceId !== project.placeId
  const lentCopies = lent.reduce((sum, { count }) => sum + count, 0)
  // A single copy that is lent is out too; of several, those lent are away and the others lie at home.
  const away = Math.min(onRecord, isAway ? Math.max(lentCopies, onRecord) : lentCopies)
  // A kit's chart is off the shelf once it is closed, a spare's once it is sold.
  const bagsOf = (projectId: string, isCounted: (bag: { isSpare: boolean; status: string }) => boolean) =>
    bags.reduce((sum, bag) => (bag.projectId === projectId && isCounted(bag) ? sum + bag._count._all : sum), 0)
  const soldSpares = (projectId: string) => bagsOf(projectId, ({ isSpare, status }) => isSpare && status === 'sold')
  const packedOf = (projectId: string) => bagsOf(projectId, ({ isSpare }) => !isSpare) + soldSpares(projectId)
  const wantedBefore = others.reduce((sum, { id, quantity, spares }) => {
    const wanted = chartsWanted({ copies: quantity, spares, soldSpares: soldSpares(id) })
    return sum + Math.max(0, wanted - packedOf(id))
  }, 0)
  const packed = isFile ? 0 : packedOf(project.id)
  const elsewhere = Math.min(onRecord - away, wantedBefore)
  const placeId = currentPlaceId ?? homePlaceId
  return {
    ...{ ...rest, kind, isFile, onRecord, away, elsewhere, packed, copies: packed + onRecord - away - elsewhere },
    placeIds: placeId === null || onRecord === 0 ? [] : [placeId],
  }
}
