import 'server-only'
import type { CutPlan, CutRequest } from '#lib/cloth/cut-plan'
import { ok, type Result } from '#lib/result'
import { type Job, type JobState, Jobs, type TooManyAtOnce } from './jobs'
import { type CutEnding, type CutRun, runCutPlan } from './run-cut-plan'

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

const jobs = new Jobs<Asked<unknown>, CutPlan | null, CutRun | null>('plan of cuts', { most: mostCutJobs })

/** Begin to search for a plan, in the background. */
export function startCutJob<About>(
  asked: Asked<About>,
  run: typeof runCutPlan = runCutPlan,
): Result<CutJob<About>, TooManyAtOnce> {
  const { request, timeLimitSeconds } = asked
  const started = jobs.start({
    about: asked,
    first: null,
    run: ({ signal, report }) =>
      run(request, { timeLimitSeconds, signal, onProgress: report }).catch((error) => {
        if (signal.aborted && error === signal.reason) return null
        throw error
      }),
  })
  return started.ok ? ok(cutJobOf(started.value as Kept<About>)) : started
}

function cutJobOf<About>({ id, about, state, progress, startedAt, endedAt }: Kept<About>): CutJob<About> {
  if (state.kind !== 'ended') return { ...about, id, state, plan: progress, startedAt, endedAt }
  const { plan, ending }: { plan: CutPlan | null; ending: CutEnding } = state.answer ?? { plan: progress, ending: 'stopped' }
  return { ...about, id, state: { kind: ending }, plan, startedAt, endedAt }
}

/** @returns null for a job nobody knows, such as one from before the program was started, or long ended. */
export function findCutJob<About>(id: string): CutJob<About> | null {
  const job = jobs.find(id)
  return job && cutJobOf(job as Kept<About>)
}

/** End a running job with the best plan it has, and wait until it has ended. One that has ended is left as it is. */
export const stopCutJob = (id: string): Promise<void> => jobs.stop(id)
