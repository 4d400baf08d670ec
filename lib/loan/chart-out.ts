import type { ChartKind } from '#lib/chart/design'
import { isPeople, type PlaceKind } from '#lib/place/place'
import { ok, type Result, refused } from '#lib/result'

/** A chart as lending sees it. */
export type LendableChart = {
  kind: ChartKind
  copies: number
  /** Copies with somebody on a loan that is open. */
  copiesOut: number
  /** Where it lies, when that is not where it lives: a bag, a class. Copies lent do not count as that while one is at home. */
  awayAt: string | null
  hasHome: boolean
}

export type ChartNotLent =
  | { kind: 'is-a-file' }
  | { kind: 'no-home' }
  | { kind: 'is-out'; placeLabel: string }
  | { kind: 'not-so-many'; atHome: number }

/** Copies that are where they live. */
export const copiesAtHome = ({ copies, copiesOut, awayAt }: Pick<LendableChart, 'copies' | 'copiesOut' | 'awayAt'>): number =>
  awayAt === null ? Math.max(0, copies - copiesOut) : 0

/**
 * Whether so many copies of a chart may be lent. A file is for the one person who bought it, and is never lent (trade notes, question
 * 84); a chart without a home could not be told to be out; what is out cannot go out again.
 *
 * @throws {RangeError} unless `count` is a whole number from 1.
 */
export function mayLendChart(chart: LendableChart, count: number): Result<{ leavesNone: boolean }, ChartNotLent> {
  if (!Number.isSafeInteger(count) || count < 1) throw new RangeError(`mayLendChart: ${count} copies`)
  if (chart.kind === 'file') return refused({ kind: 'is-a-file' })
  if (chart.awayAt !== null) return refused({ kind: 'is-out', placeLabel: chart.awayAt })
  if (!chart.hasHome) return refused({ kind: 'no-home' })
  const atHome = copiesAtHome(chart)
  return count > atHome ? refused({ kind: 'not-so-many', atHome }) : ok({ leavesNone: count === atHome })
}

/** Where a chart is, as far as its designs go: the place's kind says whether somebody has it. */
export type ChartWhereabouts = { homePlaceId: string | null; currentPlaceId: string | null; currentKind: PlaceKind | null }

/**
 * Whether a chart's designs say "chart out": its last copy is with somebody. A chart lying in one's own bag is out of its slot, but to
 * hand. All designs of a booklet go with it; what is finished already stays finished.
 */
export const isChartWithSomebody = ({ homePlaceId, currentPlaceId, currentKind }: ChartWhereabouts): boolean =>
  currentPlaceId !== null && currentPlaceId !== homePlaceId && currentKind !== null && isPeople(currentKind)
