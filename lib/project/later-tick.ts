import { compareExact } from '#lib/stock/batch'

/**
 * What somebody said of a line, as far as it is weighed against another: when, by the ticker's clock (null: nobody said anything), how
 * much it says, and who.
 */
type Said = { tickedAtMs: number | null; weight: number; by: string | null }

/**
 * Whether what stands of a line stays, whatever order ticks arrive in: the later one does, of two of the same moment the one that says
 * more, then the later name; and what is the same changes nothing.
 */
export function standsOver(stands: Said, tick: Said & { tickedAtMs: number }): boolean {
  if (stands.tickedAtMs === null) return false
  return (stands.tickedAtMs - tick.tickedAtMs || stands.weight - tick.weight || compareExact(stands.by, tick.by)) >= 0
}

/** Clocks this far apart are taken to be set differently; less is the way the message took. */
const clocksDifferMs = 60_000

/**
 * The moment of a tick by the clock of who receives it: as the ticker's clock says, put right where that clock is plainly wrong. A tick
 * never lies in the future, where it would stand over all that are made until then.
 *
 * @param ticked.sentAtMs  what the ticker's clock said when the tick was sent; left out, the clock is trusted
 */
export function tickMoment(ticked: { tickedAtMs: number; sentAtMs?: number }, receivedAtMs: number): number {
  const offMs = ticked.sentAtMs === undefined ? 0 : receivedAtMs - ticked.sentAtMs
  return Math.min(receivedAtMs, ticked.tickedAtMs + (Math.abs(offMs) > clocksDifferMs ? offMs : 0))
}
