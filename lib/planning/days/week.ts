import { addDays, earlierOf } from '#lib/quantity/day'
import type { MovementKind } from '#lib/stock/stock-change'

/** The seven days up to and with a day, and the seven after it. */
export const weekAround = (day: string) => ({
  past: { fromOn: addDays(day, -6), toOn: day },
  next: { fromOn: addDays(day, 1), toOn: addDays(day, 7) },
})

/** One line of the journal as a week tells it. */
export type WeekMovement = {
  kind: MovementKind
  noun: 'thread' | 'cloth' | 'chart' | 'notion'
  thingId: string
  /** Whole put-ups, pieces, copies gained or lost. */
  wholeDelta: number
  hasPart: boolean
}

export type WeekSums = {
  /** Put-ups of thread, pieces of cloth, copies of charts, notions that came in. */
  received: Record<WeekMovement['noun'], number>
  /** Different things that were taken out, and that came back. */
  takenOut: number
  cameBack: number
}

/** What a week's journal comes to. What is only shifted between places is neither out nor back. */
export function sumWeek(movements: readonly WeekMovement[]): WeekSums {
  const received = { thread: 0, cloth: 0, chart: 0, notion: 0 }
  const out = new Set<string>()
  const back = new Set<string>()
  for (const { kind, noun, thingId, wholeDelta, hasPart } of movements) {
    const thing = `${noun} ${thingId}`
    if (kind === 'receive') received[noun] += wholeDelta > 0 ? wholeDelta : hasPart ? 1 : 0
    if (kind === 'take') out.add(thing)
    if (kind === 'return') back.add(thing)
  }
  return { received, takenOut: out.size, cameBack: back.size }
}

/** Days of a span of time away that fall into another, yyyy-mm-dd; null where none do. */
export function overlapOf(
  a: { fromOn: string; toOn: string },
  b: { fromOn: string; toOn: string },
): { fromOn: string; toOn: string } | null {
  const fromOn = [a.fromOn, b.fromOn].sort()[1] as string
  const toOn = earlierOf(a.toOn, b.toOn)
  return fromOn <= toOn ? { fromOn, toOn } : null
}
