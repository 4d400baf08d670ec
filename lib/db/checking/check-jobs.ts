import 'server-only'
import type { Fault, FaultKind, Repair } from '#lib/checking/fault'
import { ok, type Result } from '#lib/result'
import { type Job, Jobs, type TooManyAtOnce } from '#lib/solver/jobs'
import { database } from '../client'
import { type CheckProgress, type CheckResult, checkCollection, checkSteps } from './check-collection'
import { type Repaired, type RepairRefused, repairFault } from './repair-fault'

/** What became of a fault that something was done about. */
export type Outcome = { repair: Repair; answer: Result<Repaired, RepairRefused> }

export type CheckJob = Job<null, CheckProgress, CheckResult> & {
  /** By the fault's id: what was asked, and how it came out. */
  outcomes: Map<string, Outcome>
}

const jobs = new Jobs<null, CheckProgress, CheckResult>('check', { most: 1 })

// What was found stays until the next check, and what was done about it with it; every bundle has the same.
const shared = globalThis as unknown as { larderCheck?: { id: string; outcomes: Map<string, Outcome> } }

/** Look through the whole collection in the background; `findCheck` says how it goes. */
export function startCheck(): Result<{ jobId: string }, TooManyAtOnce> {
  const started = jobs.start({
    ...{ about: null, first: { step: checkSteps[0], done: 0, of: checkSteps.length, found: 0 } },
    run: (controls) => checkCollection(database(), controls),
  })
  if (!started.ok) return started
  shared.larderCheck = { id: started.value.id, outcomes: new Map() }
  return ok({ jobId: started.value.id })
}

/** @returns null for one nobody knows: from before the program was started, or before the last one */
export function findCheck(id: string): CheckJob | null {
  const job = jobs.find(id)
  return job && shared.larderCheck?.id === id ? { ...job, outcomes: shared.larderCheck.outcomes } : null
}

/** The last one that was begun, running or ended. */
export const lastCheck = (): CheckJob | null => (shared.larderCheck ? findCheck(shared.larderCheck.id) : null)

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
  const job = findCheck(jobId)
  if (job?.state.kind !== 'ended') return null
  const wanted =
    'faultId' in asked
      ? job.state.answer.faults.filter(({ id }) => id === asked.faultId)
      : openFaults(job).filter(({ kind }) => kind === asked.faultKind)
  if (wanted.length === 0) return 'faultId' in asked ? null : []
  const done: Repairs = []
  for (const fault of wanted) {
    const outcome = { repair: asked.repair, answer: await repairFault(fault, asked.repair, { who: asked.who ?? null }) }
    job.outcomes.set(fault.id, outcome)
    done.push({ fault, outcome })
  }
  return done
}
