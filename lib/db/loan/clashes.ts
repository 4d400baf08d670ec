import 'server-only'
import { isChartWithSomebody } from '#lib/loan/chart-out'
import { type Away, awayOf, clashOf } from '#lib/loan/clash'
import type { PlaceKind } from '#lib/place/place'
import type { ProjectStatus } from '#lib/project/life-cycle'
import { compareExact } from '#lib/stock/batch'
import type { Transaction } from '../client'
import { database } from '../client'
import type { LoanClash } from './loan-refusal'

/** All copies of a chart, away for a while. */
export type ChartAway = Away & { chartId: string }

/** Projects that will want their chart: not begun, with a day to begin; or under the needle now. What is finished wants it no more. */
const wanting = {
  goneAt: null,
  OR: [{ status: { in: ['wanted', 'planned', 'kitted'] }, plannedOn: { not: null } }, { status: 'stitching' }],
}

/** Plans that want these charts while they are away, the soonest first. */
export async function readClashes(
  tx: Pick<Transaction, 'project'>,
  away: readonly ChartAway[],
  { exceptProjectId = null }: { exceptProjectId?: string | null } = {},
): Promise<LoanClash[]> {
  if (away.length === 0) return []
  const rows = await tx.project.findMany({
    where: {
      ...wanting,
      design: { chartId: { in: away.map(({ chartId }) => chartId) } },
      ...(exceptProjectId !== null && { id: { not: exceptProjectId } }),
    },
    select: {
      id: true,
      status: true,
      plannedOn: true,
      owner: { select: { name: true } },
      design: { select: { title: true, chartId: true } },
    },
    orderBy: { id: 'asc' },
  })
  const clashes = rows.flatMap(({ id, status, plannedOn, owner, design }): LoanClash[] => {
    const of = away.find(({ chartId }) => chartId === design.chartId)
    const wantedOn = status === 'stitching' ? of?.fromOn : plannedOn
    const clash = of && wantedOn ? clashOf(of, wantedOn) : null
    if (!clash) return []
    const planned = status === 'stitching' ? null : plannedOn
    return [
      { projectId: id, title: design.title, ownerName: owner.name, status: status as ProjectStatus, plannedOn: planned, clash },
    ]
  })
  return clashes.sort((a, b) => compareExact(a.clash.fromOn, b.clash.fromOn) || compareExact(a.projectId, b.projectId))
}

/** Loans that keep a design's chart away from a day it is planned for: with whom it is, and how long they overlap. */
export type PlanClash = Away & {
  loanId: string
  placeId: string
  placeLabel: string
  dueOn: string | null
  clash: { fromOn: string; untilOn: string | null; days: number | null }
}

/**
 * Whether the chart of a design is with somebody when it is wanted. Several copies clash only when the last one is away.
 *
 * @param plan.plannedOn  yyyy-mm-dd
 * @param today           yyyy-mm-dd: what is overdue today has no day to be back by any more
 */
export async function clashesOfPlan(
  plan: { designId: string; plannedOn: string; exceptProjectId?: string | null },
  today: string,
): Promise<PlanClash[]> {
  const { prisma } = database()
  const chart = await prisma.chart.findFirst({
    where: { designs: { some: { id: plan.designId } }, goneAt: null },
    select: { id: true, homePlaceId: true, currentPlaceId: true, currentPlace: { select: { kind: true } } },
  })
  if (!chart || !isChartWithSomebody({ ...chart, currentKind: (chart.currentPlace?.kind ?? null) as PlaceKind | null })) return []
  const lines = await prisma.loanLine.findMany({
    where: { chartId: chart.id, backOn: null, loan: { closedOn: null } },
    select: {
      loan: {
        select: { id: true, fromOn: true, dueOn: true, projectId: true, place: { select: { id: true, label: true } } },
      },
    },
    orderBy: { id: 'asc' },
  })
  return lines.flatMap(({ loan }) => {
    if (plan.exceptProjectId && loan.projectId === plan.exceptProjectId) return []
    const away = awayOf(loan, today)
    const clash = clashOf(away, plan.plannedOn)
    const { place, dueOn } = loan
    return clash ? [{ ...away, loanId: loan.id, placeId: place.id, placeLabel: place.label, dueOn, clash }] : []
  })
}
