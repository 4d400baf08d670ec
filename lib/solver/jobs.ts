import 'server-only'
import { randomUUID } from 'node:crypto'
import { ok, type Result, refused } from '#lib/result'

/** `running` until it ends with its answer; `failed` when it broke: the error's number stands in the log. */
export type JobState<Answer> = { kind: 'running' } | { kind: 'ended'; answer: Answer } | { kind: 'failed'; errorId: string }

/** Some long work in the background, as it stands. */
export type Job<About, Progress, Answer> = {
  id: string
  /** What was asked. */
  about: About
  state: JobState<Answer>
  /** What it told last; kept when it ends. */
  progress: Progress
  startedAt: Date
  endedAt: Date | null
}

export type TooManyAtOnce = { kind: 'too-many-at-once'; most: number }

type Work<About, Progress, Answer> = {
  about: About
  /** How far it is before it has told anything. */
  first: Progress
  /** Stopped by the signal, it still resolves, with what it has by then. */
  run: (controls: { signal: AbortSignal; report: (progress: Progress) => void }) => Promise<Answer>
}

type Kept<About, Progress, Answer> = Job<About, Progress, Answer> & { stop: AbortController; ending: Promise<void> }

/** Ended ones beyond this many are forgotten, the oldest first. */
const jobsKept = 40
/** And those that ended so long ago. */
const keptForMs = 12 * 60 * 60_000

// Actions, pages and routes are bundled apart; what runs is known to all of them.
const shared = globalThis as unknown as { larderBackgroundJobs?: Map<string, Map<string, unknown>> }
shared.larderBackgroundJobs ??= new Map()
const jobsByKind = shared.larderBackgroundJobs

/**
 * Work of one kind that goes on while its page is left, and can be stopped: a few at once, each holding a thread of the machine. Jobs
 * live in memory: one that runs while the program is stopped is lost, and has to be asked for again.
 */
export class Jobs<About, Progress, Answer> {
  readonly #kind: string
  readonly #most: number
  readonly #jobs: Map<string, Kept<About, Progress, Answer>>

  /** @param kind  What is worked on, for the log; equal kinds share their jobs. */
  constructor(kind: string, { most }: { most: number }) {
    const jobs = jobsByKind.get(kind) ?? new Map()
    jobsByKind.set(kind, jobs)
    this.#kind = kind
    this.#most = most
    this.#jobs = jobs as Map<string, Kept<About, Progress, Answer>>
  }

  /** Begin it in the background; `find` says how it goes. */
  start({ about, first, run }: Work<About, Progress, Answer>): Result<Job<About, Progress, Answer>, TooManyAtOnce> {
    this.#forgetOld(Date.now())
    const running = [...this.#jobs.values()].filter(({ state }) => state.kind === 'running').length
    if (running >= this.#most) return refused({ kind: 'too-many-at-once', most: this.#most })
    const stop = new AbortController()
    const job: Kept<About, Progress, Answer> = {
      ...{ id: randomUUID(), about, state: { kind: 'running' }, progress: first, startedAt: new Date(), endedAt: null },
      ...{ stop, ending: Promise.resolve() },
    }
    const report = (progress: Progress) => {
      job.progress = progress
    }
    const end = (state: JobState<Answer>) => {
      job.state = state
      job.endedAt = new Date()
    }
    job.ending = run({ signal: stop.signal, report }).then(
      (answer) => end({ kind: 'ended', answer }),
      (error) => {
        const errorId = randomUUID()
        console.error(`${this.#kind} failed (${errorId})`, error)
        end({ kind: 'failed', errorId })
      },
    )
    this.#jobs.set(job.id, job)
    return ok(job)
  }

  /** @returns null for a job nobody knows, such as one from before the program was started, or long ended. */
  find(id: string): Job<About, Progress, Answer> | null {
    return this.#jobs.get(id) ?? null
  }

  /** Wait until a job has ended by itself. */
  async ended(id: string): Promise<void> {
    await this.#jobs.get(id)?.ending
  }

  /** End a running job with what it has, and wait until it has ended. One that has ended is left as it is. */
  async stop(id: string): Promise<void> {
    this.#jobs.get(id)?.stop.abort(new Error('stopped by a person'))
    await this.ended(id)
  }

  #forgetOld(now: number): void {
    for (const [id, { endedAt }] of this.#jobs) {
      if (endedAt === null) continue
      if (this.#jobs.size > jobsKept || now - endedAt.getTime() > keptForMs) this.#jobs.delete(id)
    }
  }
}

/** How long a job has run, or ran. */
export const secondsRun = ({ startedAt, endedAt }: { startedAt: Date; endedAt: Date | null }): number =>
  ((endedAt ?? new Date()).getTime() - startedAt.getTime()) / 1_000
