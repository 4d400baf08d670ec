import 'server-only'
import { seenOwners, seesAsMuch } from '#lib/access/who'
import type { Result } from '#lib/result'
import { who } from '../access/asking'
import { database } from '../client'
import { type AnyJob, type AnyKind, type Job, type JobKeeper, type JobKind, jobKinds, type TooManyAtOnce } from './job'
import { jobsInMemory } from './jobs-in-memory'
import { queuedJobs } from './queued-jobs'

/** One process has SQLite to itself; PostgreSQL may have several, which share what goes on. */
const keeper = (): JobKeeper => (database().engine === 'postgresql' ? queuedJobs(database().url) : jobsInMemory)

/** A job tells of what whoever began it sees: it is there for those who see as much. */
const shown = (job: AnyJob | null): AnyJob | null => (job && seesAsMuch(who(), job.who) ? job : null)

const isShown = async (kind: string, id: string): Promise<boolean> =>
  seenOwners(who()) === null || shown(await keeper().find(kind, id)) !== null

/**
 * Work of one kind that goes on while its page is left, and can be stopped: a few at once. With SQLite it lives in memory, and one that
 * runs while the program is stopped is lost. With PostgreSQL it may be begun at one process, done by another and looked at from a third;
 * what it is about, how far it is and what it found go through text (`toJobText`).
 */
export class Jobs<About, Progress, Answer> {
  readonly #kind: string

  /** @param kind  What is worked on, for the log and the queue; equal kinds share their jobs. */
  constructor(kind: string, how: JobKind<About, Progress, Answer>) {
    this.#kind = kind
    jobKinds.set(kind, how as unknown as AnyKind)
  }

  /** Begin it in the background, as who asks; `find` says how it goes. @param id  of its own, where whoever asks needs it before */
  start(about: About, id?: string): Promise<Result<Job<About, Progress, Answer>, TooManyAtOnce>> {
    return keeper().start(this.#kind, about, id) as Promise<Result<Job<About, Progress, Answer>, TooManyAtOnce>>
  }

  /**
   * Begin it once, however many processes ask for the same key at once, as clocks do.
   *
   * @returns null where it was begun already, or too many are at work
   */
  startOnce(about: About, key: string): Promise<Job<About, Progress, Answer> | null> {
    return keeper().startOnce(this.#kind, about, key) as Promise<Job<About, Progress, Answer> | null>
  }

  /** @returns null for a job nobody knows, such as one from before the program was started, or long ended. */
  async find(id: string): Promise<Job<About, Progress, Answer> | null> {
    return shown(await keeper().find(this.#kind, id)) as Job<About, Progress, Answer> | null
  }

  /** The one that was begun last, running or ended. */
  async latest(): Promise<Job<About, Progress, Answer> | null> {
    return shown(await keeper().latest(this.#kind)) as Job<About, Progress, Answer> | null
  }

  /** Wait until a job has ended by itself. */
  ended(id: string): Promise<void> {
    return keeper().ended(this.#kind, id)
  }

  /** End a running job with what it has, and wait until it has ended. One that has ended is left as it is. */
  async stop(id: string): Promise<void> {
    await this.askToStop(id)
    await this.ended(id)
  }

  /** The same, without waiting. */
  async askToStop(id: string): Promise<void> {
    if (await isShown(this.#kind, id)) await keeper().askToStop(this.#kind, id)
  }

  /** Change what one that has ended answered, one change after another. @returns null where there is no such answer */
  async amend(id: string, change: (answer: Answer) => Answer): Promise<Answer | null> {
    if (!(await isShown(this.#kind, id))) return null
    return keeper().amend(this.#kind, id, change as (answer: unknown) => unknown) as Promise<Answer | null>
  }
}

/** How long a job has run, or ran. */
export const secondsRun = ({ startedAt, endedAt }: { startedAt: Date; endedAt: Date | null }): number =>
  ((endedAt ?? new Date()).getTime() - startedAt.getTime()) / 1_000
