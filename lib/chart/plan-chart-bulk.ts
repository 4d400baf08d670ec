import { housedIn, planStepsBack, type WhyLeft } from '#lib/place/new-home'
import { isPeople, type PlaceKind } from '#lib/place/place'

/** The three lists a theme can be on. */
export type ChartBulkAxis = 'season' | 'subject' | 'form'

/** One change to many charts, or to many designs. */
export type ChartBulkChange =
  /** They live somewhere else: what lies at home goes along, what is out stays out and comes back to the new home. */
  | { kind: 'home'; toPlaceId: string }
  | { kind: 'owner'; toOwnerId: string }
  /** As lib/db/chart/remove-chart.ts has it. */
  | { kind: 'gone'; ending: 'passed on' | 'lost' | 'slip' }
  /** Made where it is new. */
  | { kind: 'add-theme'; axis: ChartBulkAxis; name: string }
  | { kind: 'take-theme'; themeId: string }
  /** How much they are wished for, 1 to 5; null takes the stars off. Of projects that are only wanted so far. */
  | { kind: 'stars'; stars: number | null }

export type BulkChart = {
  id: string
  kind: string
  ownerId: string
  copies: number
  homePlaceId: string | null
  currentPlaceId: string | null
  /** How many projects under way are worked from it. */
  inWork: number
}

export type BulkDesign = {
  id: string
  chartId: string
  /** Whether it has the theme that is asked about. */
  hasTheme: boolean
  wishes: readonly { projectId: string; stars: number | null }[]
}

/** A value as it was. */
export type ChartBulkValue = string | boolean | number | null | { homePlaceId: string | null; currentPlaceId: string | null }

export type ChartBulkWhyNot =
  | { kind: 'in-work'; projects: number }
  /** A file goes to nobody. */
  | { kind: 'is-a-file' }
  /** No wish has it, so there is nothing to put stars on. */
  | { kind: 'not-wished' }

/** What becomes of one chart, design or wish. `isOut`: its home changes, and it stays where it is. */
export type ChartBulkLine = {
  /** Of the chart, the design or the project, as the change is of. */
  id: string
  /** The chart or design a person knows it by. */
  chartId: string
  designId: string | null
  before: ChartBulkValue
  isOut: boolean
  outcome: { kind: 'changes' } | { kind: 'same' } | { kind: 'refused'; why: ChartBulkWhyNot }
}

export const isOfCharts = ({ kind }: Pick<ChartBulkChange, 'kind'>): boolean =>
  kind === 'home' || kind === 'owner' || kind === 'gone'

/**
 * What a change would do, line by line, in the order of the charts or designs handed in. Each chart has one line however many of its
 * designs were chosen.
 *
 * @param toPlaceKind  of the new home
 */
export function planChartBulk({
  change,
  charts,
  designs,
  toPlaceKind = null,
}: {
  change: ChartBulkChange
  charts: readonly BulkChart[]
  designs: readonly BulkDesign[]
  toPlaceKind?: string | null
}): ChartBulkLine[] {
  const line = (
    of: Pick<ChartBulkLine, 'id' | 'chartId' | 'designId' | 'before'>,
    outcome: ChartBulkLine['outcome'],
    isOut = false,
  ): ChartBulkLine => ({ ...of, isOut, outcome })
  const decide = (isSame: boolean): ChartBulkLine['outcome'] => (isSame ? { kind: 'same' } : { kind: 'changes' })
  switch (change.kind) {
    case 'home':
      return charts.map((chart) => {
        const { id, homePlaceId, currentPlaceId } = chart
        const of = { id, chartId: id, designId: null, before: { homePlaceId, currentPlaceId } }
        if (homePlaceId === change.toPlaceId) return line(of, { kind: 'same' })
        if (chart.kind === 'file' && toPlaceKind !== null && isPeople(toPlaceKind as PlaceKind))
          return line(of, { kind: 'refused', why: { kind: 'is-a-file' } })
        return line(of, { kind: 'changes' }, housedIn(chart, change.toPlaceId).isOut)
      })
    case 'owner':
      return charts.map(({ id, ownerId }) =>
        line({ id, chartId: id, designId: null, before: ownerId }, decide(ownerId === change.toOwnerId)),
      )
    case 'gone':
      return charts.map(({ id, copies, inWork }) =>
        line(
          { id, chartId: id, designId: null, before: copies },
          inWork > 0 ? { kind: 'refused', why: { kind: 'in-work', projects: inWork } } : { kind: 'changes' },
        ),
      )
    case 'add-theme':
    case 'take-theme':
      return designs.map(({ id, chartId, hasTheme }) =>
        line({ id, chartId, designId: id, before: hasTheme }, decide(hasTheme === (change.kind === 'add-theme'))),
      )
    case 'stars':
      return designs.flatMap(({ id, chartId, wishes }) =>
        wishes.length === 0
          ? [line({ id, chartId, designId: id, before: null }, { kind: 'refused', why: { kind: 'not-wished' } })]
          : wishes.map(({ projectId, stars }) =>
              line({ id: projectId, chartId, designId: id, before: stars }, decide(stars === change.stars)),
            ),
      )
  }
}

/** What it takes to undo one line: what was there before, and the version it got. `outSince` is an ISO moment. */
export type ChartBulkStep = {
  id: string
  chartId: string
  designId: string | null
  before: ChartBulkValue
  versionAfter: number
  outSince?: string | null
}

export type ChartBulkLeft = { id: string; chartId: string; designId: string | null; why: WhyLeft }

/** Which lines can be taken back: `planStepsBack`. */
export function planChartBulkUndo(
  steps: readonly ChartBulkStep[],
  versions: ReadonlyMap<string, number>,
  placeIds: ReadonlySet<string>,
): { back: ChartBulkStep[]; left: ChartBulkLeft[] } {
  const { back, left } = planStepsBack(steps, versions, placeIds)
  return { back, left: left.map(({ step: { id, chartId, designId }, why }) => ({ id, chartId, designId, why })) }
}
