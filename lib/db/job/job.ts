import 'server-only'
import type { Who } from '#lib/access/who'
import type { Result } from '#lib/result'

/** `running` until it ends with its answer; `failed` when it broke: the error's number stands in the log. */
export type JobState<Answer> = { kind: 'running' } | { kind: 'ended'; answer: Answer } | { kind: 'failed'; errorId: string }

/** Some long work in the background, as it stands. */
export type Job<About, Progress, Answer> = {
  id: string
  /** What was asked. */
  about: About
  /** Who began it: it is done as they, and is theirs to look at. */
  who: Who
  state: JobState<Answer>
  /** What it told last; kept when it ends. */
  progress: Progress
  startedAt: Date
  endedAt: Date | null
}

export type TooManyAtOnce = { kind: 'too-many-at-once'; most: number }

export type JobControls<Progress> = { id: string; signal: AbortSignal; report: (progress: Progress) => void }

/** How work of one kind is done, wherever it is taken up. */
export type JobKind<About, Progress, Answer> = {
  /** So many at once, over all processes: each holds a thread of a machine. */
  most: number
  /** And so many of them in one process; left out, all. */
  mostHere?: number
  /** Whether it may be done again from the start where the process at work is gone: it changes nothing by itself. */
  isTakenUpAgain: boolean
  /** How far it is before it has told anything. */
  first: (about: About) => Progress
  /** Stopped by the signal, it still resolves, with what it has by then. Gets only what it was asked: it may run in another process. */
  run: (about: About, controls: JobControls<Progress>) => Promise<Answer>
}

export type AnyKind = JobKind<unknown, unknown, unknown>
export type AnyJob = Job<unknown, unknown, unknown>

/** Where jobs stand: in the memory of the one process there is, or in the database that several share. */
export type JobKeeper = {
  /** @param id  of its own, where whoever asks needs it before */
  start(kind: string, about: unknown, id?: string): Promise<Result<AnyJob, TooManyAtOnce>>
  /** The same, by one process for all of them. @returns null where it was begun for this key already, or cannot be begun now */
  startOnce(kind: string, about: unknown, key: string): Promise<AnyJob | null>
  find(kind: string, id: string): Promise<AnyJob | null>
  /** The one of its kind that was begun last. */
  latest(kind: string): Promise<AnyJob | null>
  /** Resolves when it has ended by itself. */
  ended(kind: string, id: string): Promise<void>
  /** Ask it to end with what it has. */
  askToStop(kind: string, id: string): Promise<void>
  /** Change the answer of one that has ended. @returns null where there is none */
  amend(kind: string, id: string, change: (answer: unknown) => unknown): Promise<unknown>
}

/** Ended ones of a kind beyond this many are forgotten, the oldest first. */
export const jobsKept = 40
/** And those that ended so long ago. */
export const keptForMs = 12 * 60 * 60_000

// Actions, pages and routes are bundled apart; what can be done is known to all of them.
const shared = globalThis as unknown as { larderJobKinds?: Map<string, AnyKind> }
shared.larderJobKinds ??= new Map()
export const jobKinds = shared.larderJobKinds

export function kindOf(kind: string): AnyKind {
  const known = jobKinds.get(kind)
  if (!known) throw new Error(`kindOf: nobody here knows how to do "${kind}"`)
  return known
}
