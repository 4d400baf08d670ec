import { standsOver } from './later-tick'

export type WalkKind = 'pull' | 'put-back'

/** dropped: given up; what was carried out by then stays so. */
export const walkStatuses = ['open', 'done', 'dropped'] as const
export type WalkStatus = (typeof walkStatuses)[number]

/** instead: another batch was taken. */
export const walkLineStatuses = ['open', 'done', 'not there', 'instead'] as const
export type WalkLineStatus = (typeof walkLineStatuses)[number]

/** What a tick can say. A line ticked after another batch was taken for it is a line of that batch from then on. */
export const tickedStatuses = ['open', 'done', 'not there'] as const
export type TickedStatus = (typeof tickedStatuses)[number]

/** What one person last said of a line; times in milliseconds of one clock. */
export type Tick = { status: TickedStatus; tickedAtMs: number; by: string | null }

/** A line as far as ticks go; null in `tickedAtMs` while nobody said anything. */
export type TickedLine = { status: WalkLineStatus; tickedAtMs: number | null; tickedBy: string | null }

const weight: Record<WalkLineStatus, number> = { open: 0, 'not there': 1, done: 2, instead: 2 }

/**
 * A line after a tick. The later tick stands, whichever arrives first; of two of the same moment the one that says more ("done" before
 * "not there" before "open"), then the later name. So any number of ticks leaves the same line in whatever order they come, and one
 * that comes twice changes nothing.
 */
export function afterTick(line: TickedLine, tick: Tick): TickedLine {
  const { status, tickedAtMs, by } = tick
  const stands = { tickedAtMs: line.tickedAtMs, weight: weight[line.status], by: line.tickedBy }
  if (standsOver(stands, { tickedAtMs, weight: weight[status], by })) return line
  return { status, tickedAtMs, tickedBy: by }
}

/** What a line is of: exactly one of the four. */
export type WalkThing = {
  batchId: string | null
  clothPieceId: string | null
  chartId: string | null
  notionId: string | null
}

/** Lines of one thing are one row on the list, however many bags it is for. */
export const thingKey = (thing: WalkThing): string => thing.batchId ?? thing.clothPieceId ?? thing.chartId ?? thing.notionId ?? ''

/** In hand: ticked, or something else taken for it. */
export const isInHand = (status: WalkLineStatus): boolean => status === 'done' || status === 'instead'

export type WalkProgress = { things: number; done: number; notThere: number; waiting: number }

/**
 * How far a walk has come, counted in things: "14 of 37". A thing for several bags is done once every bag's is in hand.
 * `waiting` are in hand and not yet carried out.
 */
export function walkProgress(lines: readonly (WalkThing & { status: WalkLineStatus; isCarried: boolean })[]): WalkProgress {
  const things = new Map<string, { isDone: boolean; isNotThere: boolean; isWaiting: boolean }>()
  for (const line of lines) {
    const isDone = line.isCarried || isInHand(line.status)
    const known = things.get(thingKey(line)) ?? { isDone: true, isNotThere: false, isWaiting: false }
    things.set(thingKey(line), {
      isDone: known.isDone && isDone,
      isNotThere: known.isNotThere || (!isDone && line.status === 'not there'),
      isWaiting: known.isWaiting || (!line.isCarried && isInHand(line.status)),
    })
  }
  const all = [...things.values()]
  return {
    things: all.length,
    done: all.filter(({ isDone }) => isDone).length,
    notThere: all.filter(({ isNotThere }) => isNotThere).length,
    waiting: all.filter(({ isWaiting }) => isWaiting).length,
  }
}
