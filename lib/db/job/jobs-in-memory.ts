import 'server-only'
import { randomUUID } from 'node:crypto'
import { log } from '#lib/log/log'
import { ok, refused } from '#lib/result'
import { who } from '../access/asking'
import { asBegun } from './as-begun'
import { type AnyJob, type JobKeeper, type JobState, jobsKept, keptForMs, kindOf } from './job'

type Kept = AnyJob & { stop: AbortController; ending: Promise<void> }

// Actions, pages and routes are bundled apart; what runs is known to all of them.
const shared = globalThis as unknown as { larderBackgroundJobs?: Map<string, Map<string, Kept>> }
shared.larderBackgroundJobs ??= new Map()
const jobsByKind = shared.larderBackgroundJobs

function jobsOf(kind: string): Map<string, Kept> {
  const jobs = jobsByKind.get(kind) ?? new Map<string, Kept>()
  jobsByKind.set(kind, jobs)
  return jobs
}

/** Jobs in the memory of this process, which does them itself. */
export const jobsInMemory: JobKeeper = {
  async start(kind, about, id = randomUUID()) {
    const jobs = jobsOf(kind)
    const { most, first, run } = kindOf(kind)
    forgetOld(jobs, Date.now())
    const running = [...jobs.values()].filter(({ state }) => state.kind === 'running').length
    if (running >= most) return refused({ kind: 'too-many-at-once', most })
    const stop = new AbortController()
    const job: Kept = {
      ...{ id, about, who: who(), state: { kind: 'running' }, progress: first(about) },
      ...{ startedAt: new Date(), endedAt: null, stop, ending: Promise.resolve() },
    }
    const report = (progress: unknown) => {
      job.progress = progress
    }
    const end = (state: JobState<unknown>) => {
      job.state = state
      job.endedAt = new Date()
      const ms = job.endedAt.getTime() - job.startedAt.getTime()
      if (state.kind === 'ended') log.info(`${kind} ended`, { id: job.id, kind, ms })
    }
    job.ending = asBegun(kind, job.who, () => run(about, { id, signal: stop.signal, report })).then(
      (answer) => end({ kind: 'ended', answer }),
      (error) => {
        const errorId = randomUUID()
        log.error(`${kind} failed`, { id: errorId, kind, error })
        end({ kind: 'failed', errorId })
      },
    )
    jobs.set(job.id, job)
    return ok(job)
  },
  // There is one process only.
  async startOnce(kind, about) {
    const started = await jobsInMemory.start(kind, about)
    return started.ok ? started.value : null
  },
  find: async (kind, id) => jobsOf(kind).get(id) ?? null,
  latest: async (kind) => [...jobsOf(kind).values()].at(-1) ?? null,
  ended: async (kind, id) => jobsOf(kind).get(id)?.ending,
  async askToStop(kind, id) {
    jobsOf(kind).get(id)?.stop.abort(new Error('stopped by a person'))
  },
  async amend(kind, id, change) {
    const job = jobsOf(kind).get(id)
    if (job?.state.kind !== 'ended') return null
    job.state = { kind: 'ended', answer: change(job.state.answer) }
    return job.state.answer
  },
}

function forgetOld(jobs: Map<string, Kept>, now: number): void {
  for (const [id, { endedAt }] of jobs) {
    if (endedAt === null) continue
    if (jobs.size > jobsKept || now - endedAt.getTime() > keptForMs) jobs.delete(id)
  }
}
