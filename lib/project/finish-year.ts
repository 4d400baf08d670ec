import { daysBetween } from '#lib/quantity/day'
import type { FinishCost } from './finish-cost'

/** A finished piece as a year sums it up. */
export type YearFinish = {
  id: string
  quantity: number
  startedOn: string | null
  /** yyyy-mm-dd */
  finishedOn: string
  stitches: number
  hoursTenths: number
  /** `strandTenths` ÷ `strands` is the length of thread as it is sold. */
  colours: readonly { threadId: string; strandTenths: number; strands: number }[]
  cost: FinishCost
}

export type YearMonth = {
  /** yyyy-mm */
  month: string
  pieces: number
  stitches: number
  hoursTenths: number
  /** Stitched in that month by the log, whatever on. */
  logged: number
}

export type FinishYear = {
  pieces: number
  stitches: number
  hoursTenths: number
  /** Thread as it is sold, in tenths of a millimetre. */
  threadTenths: number
  /** What each piece adds to that, in the order of the finishes; not rounded. */
  threadByPiece: { id: string; threadTenths: number }[]
  colours: { threadId: string; strandTenths: number; pieces: number }[]
  cost: {
    totalMinor: number
    unknown: number
    threadMinor: number
    clothMinor: number
    chartMinor: number
    sentMinor: number
    otherMinor: number
  }
  /** All twelve. */
  months: YearMonth[]
  /** The one that took the most hours, or the most days where no hours are known. */
  longest: { id: string; by: 'hours'; hoursTenths: number } | { id: string; by: 'days'; days: number } | null
  firstId: string | null
}

const pad = (month: number): string => String(month).padStart(2, '0')

/**
 * A year's finishes together.
 *
 * @param logged  stitches by day, of any work
 */
export function sumYear(
  year: string,
  finishes: readonly YearFinish[],
  logged: readonly { day: string; amount: number }[],
): FinishYear {
  const months = new Map(
    Array.from({ length: 12 }, (_, at) => {
      const month = `${year}-${pad(at + 1)}`
      return [month, { month, pieces: 0, stitches: 0, hoursTenths: 0, logged: 0 } as YearMonth] as const
    }),
  )
  const colours = new Map<string, FinishYear['colours'][number]>()
  const cost = { totalMinor: 0, unknown: 0, threadMinor: 0, clothMinor: 0, chartMinor: 0, sentMinor: 0, otherMinor: 0 }
  let [pieces, stitches, hoursTenths, threadTenths] = [0, 0, 0, 0]
  const threadByPiece: FinishYear['threadByPiece'] = []
  for (const finish of finishes) {
    const month = months.get(finish.finishedOn.slice(0, 7))
    for (const sums of month ? [month] : []) {
      sums.pieces += finish.quantity
      sums.stitches += finish.stitches
      sums.hoursTenths += finish.hoursTenths
    }
    pieces += finish.quantity
    stitches += finish.stitches
    hoursTenths += finish.hoursTenths
    for (const { threadId, strandTenths } of finish.colours) {
      const colour = colours.get(threadId) ?? { threadId, strandTenths: 0, pieces: 0 }
      colour.strandTenths += strandTenths
      colour.pieces++
      colours.set(threadId, colour)
    }
    const ofPiece = finish.colours.reduce((sum, { strandTenths, strands }) => sum + strandTenths / strands, 0)
    threadByPiece.push({ id: finish.id, threadTenths: ofPiece })
    threadTenths += ofPiece
    cost.totalMinor += finish.cost.totalMinor
    cost.unknown += finish.cost.unknown
    for (const { kind, costMinor } of finish.cost.lines) cost[`${kind}Minor`] += costMinor ?? 0
  }
  for (const { day, amount } of logged) {
    const month = months.get(day.slice(0, 7))
    if (month) month.logged += amount
  }
  const inOrder = finishes.toSorted(
    (a, b) => (a.finishedOn < b.finishedOn ? -1 : a.finishedOn > b.finishedOn ? 1 : 0) || (a.id < b.id ? -1 : 1),
  )
  return {
    ...{ pieces, stitches, hoursTenths, threadTenths: Math.round(threadTenths), threadByPiece, cost },
    colours: [...colours.values()].sort((a, b) => b.strandTenths - a.strandTenths || (a.threadId < b.threadId ? -1 : 1)),
    months: [...months.values()],
    longest: longestOf(inOrder),
    firstId: inOrder[0]?.id ?? null,
  }
}

function longestOf(finishes: readonly YearFinish[]): FinishYear['longest'] {
  const byHours = finishes.toSorted((a, b) => b.hoursTenths - a.hoursTenths)[0]
  if (byHours && byHours.hoursTenths > 0) return { id: byHours.id, by: 'hours', hoursTenths: byHours.hoursTenths }
  const dated = finishes.flatMap(({ id, startedOn, finishedOn }) =>
    startedOn === null ? [] : [{ id, by: 'days' as const, days: daysBetween(startedOn, finishedOn) + 1 }],
  )
  return dated.toSorted((a, b) => b.days - a.days)[0] ?? null
}
