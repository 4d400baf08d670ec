import { ok, type Result, refused } from '#lib/result'
import { findOccasion, nextOccasion, type OccasionWorld } from './occasions'

/** What a work is due for and when; `occasionKey` as `listOccasions` has it, `dueOn` yyyy-mm-dd. */
export type DueFor = { occasionKey: string | null; dueOn: string | null }

export type OccasionRefused =
  | { kind: 'no-such-occasion'; occasionKey: string }
  /** A day that came once, and has gone by. */
  | { kind: 'occasion-over'; occasionKey: string }

/**
 * The day a work is due once an occasion is chosen for it: the occasion's next. A day typed along with it stands, and so does one
 * changed later: somebody may want it a week before, or for Easter in two years.
 *
 * @param was   what was on record
 * @param said  what a person left in the form
 */
export function dueForOccasion(input: {
  was: DueFor
  said: DueFor
  today: string
  world: OccasionWorld
}): Result<DueFor, OccasionRefused> {
  const { was, said, today, world } = input
  const { occasionKey, dueOn } = said
  if (occasionKey === null || occasionKey === was.occasionKey) return ok(said)
  if (findOccasion(occasionKey, world) === null) return refused({ kind: 'no-such-occasion', occasionKey })
  if (dueOn !== null && dueOn !== was.dueOn) return ok(said)
  const next = nextOccasion(occasionKey, today, world)
  return next === null ? refused({ kind: 'occasion-over', occasionKey }) : ok({ occasionKey, dueOn: next.on })
}
