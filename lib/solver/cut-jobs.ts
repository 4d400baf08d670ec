import 'server-only'
import { randomUUID } from 'node:crypto'
import type { CutPlan, CutRequest } from '#lib/cloth/cut-plan'
import { ok, type Result, refused } from '#lib/result'
import { type CutEnding, type CutRun, runCutPlan } from './run-cut-plan'

/** `running` until it ends as `CutEnding` has it; `failed` when its worker broke: the error's number stands in the log. */
export type CutJobState = { kind: 'running' } | { kind: CutEnding } | { kind: 'failed'; errorId: string }

/** A plan of cuts that is being searched for, or was: what for is the caller's to say. */
export type CutJob<About> = {
  id: string
  about: About
  request: CutRequest
  timeLimitSeconds: number
  state: CutJobState
  /** The best so far; null until there is a first, and for a job that failed or was stopped before it. */
  plan: CutPlan | null
  startedAt: Date
  endedAt: Date | null
}

export type CutJobRefused = { kind: 'too-many-at-once'; most: number }

type Kept = CutJob<unknown> & { stop: AbortController; ending: Promise<void> }

/** Each holds a thread of the machine. */
export const mostCutJobs = 2
/** Ended ones beyond this many are forgotten, the oldest first. */
const jobsKept = 40
/** And those that ended so long ago. */
const keptForMs = 12 * 60 * 60_000

// Actions, pages and routes are bundled apart; what runs is known to all of them.
const shared = globalThis as unknown as { larderCutJobs?: Map<string, Kept> }
shared.larderCutJobs ??= new Map()
const jobs = shared.larderCutJobs

/**
 * Begin to search for a plan, in the background. Jobs live in memory: one that runs while the program is stopped is lost, and has to be
 * asked for again.
 */
export function startCutJob<About>(
  asked: { about: About; request: CutRequest; timeLimitSeconds: number },
  run: typeof runCutPlan = runCutPlan,
): Result<CutJob<About>, CutJobRefused> {
  forgetOld(Date.now())
  const running = [...jobs.values()].filter(({ state }) => state.kind === 'running').length
  if (running >= mostCutJobs) return refused({ kind: 'too-many-at-once', most: mostCutJobs })
  const stop = new AbortController()
  const { request, timeLimitSeconds } = asked
  const job: Kept = {
    ...asked,
    id: randomUUID(),
    state: { kind: 'running' },
    plan: null,
    startedAt: new Date(),
    endedAt: null,
    stop,
    ending: Promise.resolve(),
  }
  jobs.set(job.id, job)
  const onProgress = (plan: CutPlan) => {
    job.plan = plan
  }
  job.ending = run(request, { timeLimitSeconds, signal: stop.signal, onProgress }).then(
    (done) => endJob(job, done),
    (error) => failJob(job, error),
  )
  return ok(job as CutJob<About>)
}

function endJob(job: Kept, { plan, ending }: CutRun): void {
  job.plan = plan
  job.state = { kind: ending }
  job.endedAt = new Date()
}

function failJob(job: Kept, error: unknown): void {
  job.endedAt = new Date()
  if (job.stop.signal.aborted) {
    job.state = { kind: 'stopped' }
    return
  }
  const errorId = randomUUID()
  console.error(`plan of cuts failed (${errorId})`, error)
  job.state = { kind: 'failed', errorId }
}

function forgetOld(now: number): void {
  for (const [id, { endedAt }] of jobs) {
    if (endedAt === null) continue
    if (jobs.size > jobsKept || now - endedAt.getTime() > keptForMs) jobs.delete(id)
  }
}

/** @returns null for a job nobody knows, such as one from before the program was started, or long ended. */
export const findCutJob = <About>(id: string): CutJob<About> | null => (jobs.get(id) as CutJob<About> | undefined) ?? null

/** End a running job with the best plan it has, and wait until it has ended. One that has ended is left as it is. */
export async function stopCutJob(id: string): Promise<void> {
  const job = jobs.get(id)
  job?.stop.abort(new Error('stopped by a person'))
  await job?.ending
}
