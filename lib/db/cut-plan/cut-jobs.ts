import 'server-only'
import type { CutPlan, CutRequest } from '#lib/cloth/cut-plan'
import { ok, type Result } from '#lib/result'
import { type CutEnding, type CutRun, runCutPlan } from '#lib/solver/run-cut-plan'
import type { Job, JobState, TooManyAtOnce } from '../job/job'
import { Jobs } from '../job/jobs'

/** `running` until it ends as `CutEnding` has it, or fails. */
type CutJobState = Exclude<JobState<unknown>, { kind: 'ended' }> | { kind: CutEnding }

type Asked<About> = { about: About; request: CutRequest; timeLimitSeconds: number }

/** A plan of cuts that is being searched for, or was: what for is the caller's to say. */
export type CutJob<About> = Asked<About> & {
  id: string
  state: CutJobState
  /** The best so far; null until there is a first, and for a job that failed or was stopped before it. */
  plan: CutPlan | null
  startedAt: Date
  endedAt: Date | null
}

export const mostCutJobs = 2

/** The answer is null where it was stopped before its first plan. */
type Kept<About> = Job<Asked<About>, CutPlan | null, CutRun | null>

/** Searches of one kind, each run by `run`. */
export function cutJobs(kind: string, run: typeof runCutPlan) {
  const jobs = new Jobs<Asked<unknown>, CutPlan | null, CutRun | null>(kind, {
    most: mostCutJobs,
    isTakenUpAgain: true,
    first: () => null,
    run: ({ request, timeLimitSeconds }, { signal, report }) =>
      run(request, { timeLimitSeconds, signal, onProgress: report }).catch((error) => {
        if (signal.aborted && error === signal.reason) return null
        throw error
      }),
  })
  return {
    /** Begin to search for a plan, in the background. */
    async startCutJob<About>(asked: Asked<About>): Promise<Result<CutJob<About>, TooManyAtOnce>> {
      const started = await jobs.start(asked)
      return started.ok ? ok(cutJobOf(started.value as Kept<About>)) : started
    },
    /** @returns null for a job nobody knows, such as one from before the program was started, or long ended. */
    async findCutJob<About>(id: string): Promise<CutJob<About> | null> {
      const job = await jobs.find(id)
      return job && cutJobOf(job as Kept<About>)
    },
    /** End a running job with the best plan it has, and wait until it has ended. One that has ended is left as it is. */
    stopCutJob: (id: string): Promise<void> => jobs.stop(id),
  }
}

export const { startCutJob, findCutJob, stopCutJob } = cutJobs('plan of cuts', runCutPlan)

function cutJobOf<About>({ id, about, state, progress, startedAt, endedAt }: Kept<About>): CutJob<About> {
  if (state.kind !== 'ended') return { ...about, id, state, plan: progress, startedAt, endedAt }
  const { plan, ending }: { plan: CutPlan | null; ending: CutEnding } = state.answer ?? { plan: progress, ending: 'stopped' }
  return { ...about, id, state: { kind: ending }, plan, startedAt, endedAt }
}
