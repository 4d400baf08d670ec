import 'server-only'
import { isChartWithSomebody } from '#lib/loan/chart-out'
import { awayOf, type Clash, clashOf } from '#lib/loan/clash'
import type { PlaceKind } from '#lib/place/place'
import { database } from '../../client'
import { readInParts } from '../../walk/in-parts'

/** A plan that wants its chart on a day, yyyy-mm-dd. */
type ChartPlan = { projectId: string; chartId: string; wantedOn: string }
export type ClashOfPlan = ChartPlan & { loanId: string; placeLabel: string; clash: Clash }

/**
 * Loans that keep charts away from plans, as `clashesOfPlan` has it for one of them: several copies clash only when the last is away,
 * and a loan that goes with the project itself is none.
 */
export async function clashesOfPlans(plans: readonly ChartPlan[], today: string): Promise<ClashOfPlan[]> {
  const { prisma } = database()
  const charts = await readInParts(
    plans.map(({ chartId }) => chartId),
    (ids) =>
      prisma.chart.findMany({
        where: { id: { in: ids }, goneAt: null, loanLines: { some: { backOn: null, loan: { closedOn: null } } } },
        select: {
          ...{ id: true, homePlaceId: true, currentPlaceId: true },
          currentPlace: { select: { kind: true } },
          loanLines: {
            where: { backOn: null, loan: { closedOn: null } },
            select: {
              loan: { select: { id: true, fromOn: true, dueOn: true, projectId: true, place: { select: { label: true } } } },
            },
            orderBy: { id: 'asc' },
          },
        },
      }),
  )
  const away = new Map(
    charts
      .filter((chart) => isChartWithSomebody({ ...chart, currentKind: (chart.currentPlace?.kind ?? null) as PlaceKind | null }))
      .map(({ id, loanLines }) => [id, loanLines.map(({ loan }) => loan)]),
  )
  return plans.flatMap((plan) =>
    (away.get(plan.chartId) ?? []).flatMap((loan): ClashOfPlan[] => {
      const clash = loan.projectId === plan.projectId ? null : clashOf(awayOf(loan, today), plan.wantedOn)
      return clash ? [{ ...plan, loanId: loan.id, placeLabel: loan.place.label, clash }] : []
    }),
  )
}
