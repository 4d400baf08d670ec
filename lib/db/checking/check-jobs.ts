import 'server-only'
import type { Fault, FaultKind, Repair } from '#lib/checking/fault'
import { ok, type Result } from '#lib/result'
import { requireWhole } from '../access/whole'
import { database } from '../client'
import type { Job, TooManyAtOnce } from '../job/job'
import { Jobs } from '../job/jobs'
import { type CheckProgress, type CheckResult, checkCollection, checkSteps } from './check-collection'
import { type Repaired, type RepairRefused, repairFault } from './repair-fault'

/** What became of a fault that something was done about. */
export type Outcome = { repair: Repair; answer: Result<Repaired, RepairRefused> }

export type CheckJob = Job<null, CheckProgress, CheckResult> & {
  /** By the fault's id: what was asked, and how it came out. */
  outcomes: Map<string, Outcome>
}

/** What was found, and what was done about it since. */
type Found = { result: CheckResult; outcomes: Map<string, Outcome> }

const jobs = new Jobs<null, CheckProgress, Found>('check', {
  ...{ most: 1, isTakenUpAgain: true, first: () => ({ step: checkSteps[0], done: 0, of: checkSteps.length, found: 0 }) },
  run: async (_, controls) => ({ result: await checkCollection(database(), controls), outcomes: new Map() }),
})

/** Look through the whole collection in the background; `findCheck` says how it goes. */
export async function startCheck(): Promise<Result<{ jobId: string }, TooManyAtOnce>> {
  requireWhole()
  const started = await jobs.start(null)
  return started.ok ? ok({ jobId: started.value.id }) : started
}

/** @returns null for one nobody knows: from before the program was started, or before the last one */
export async function findCheck(id: string): Promise<CheckJob | null> {
  const last = await lastCheck()
  return last?.id === id ? last : null
}

/** The last one that was begun, running or ended. */
export async function lastCheck(): Promise<CheckJob | null> {
  const job = await jobs.latest()
  if (job?.state.kind !== 'ended') return job && { ...job, state: job.state, outcomes: new Map() }
  const { result, outcomes } = job.state.answer
  return { ...job, state: { kind: 'ended', answer: result }, outcomes }
}

export const checkEnded = (id: string): Promise<void> => jobs.ended(id)

/** End it with what it has found by then. */
export const stopCheck = (id: string): Promise<void> => jobs.stop(id)

/** The faults a finished check told of, that nothing was done about yet. */
export function openFaults(job: CheckJob): Fault[] {
  if (job.state.kind !== 'ended') return []
  return job.state.answer.faults.filter(({ id }) => !isSettled(job.outcomes.get(id)))
}

/** Mended, or found to be there no longer. */
export const isSettled = (outcome: Outcome | undefined): boolean =>
  outcome !== undefined && (outcome.answer.ok || outcome.answer.error.kind === 'no-longer-there')

export type RepairAsked = { repair: Repair; who?: string | null } & ({ faultId: string } | { faultKind: FaultKind })
export type Repairs = { fault: Fault; outcome: Outcome }[]

/**
 * Do one thing about one fault of a check, or about all of a kind it was offered for: each in a write of its own, so that what is done
 * stays done when the next cannot be.
 *
 * @returns null where nobody knows the check or the fault
 */
export async function repairFrom(jobId: string, asked: RepairAsked): Promise<Repairs | null> {
  requireWhole()
  const job = await findCheck(jobId)
  if (job?.state.kind !== 'ended') return null
  const wanted =
    'faultId' in asked
      ? job.state.answer.faults.filter(({ id }) => id === asked.faultId)
      : openFaults(job).filter(({ kind }) => kind === asked.faultKind)
  if (wanted.length === 0) return 'faultId' in asked ? null : []
  const done: Repairs = []
  for (const fault of wanted) {
    const outcome = { repair: asked.repair, answer: await repairFault(fault, asked.repair, { who: asked.who ?? null }) }
    await jobs.amend(jobId, ({ result, outcomes }) => ({ result, outcomes: new Map(outcomes).set(fault.id, outcome) }))
    done.push({ fault, outcome })
  }
  return done
}
