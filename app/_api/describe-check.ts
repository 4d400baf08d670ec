import { type Fault, type FaultKind, repairsOf, weightOf } from '#lib/checking/fault'
import { isSound } from '#lib/db/checking/check-collection'
import type { CheckJob, Outcome } from '#lib/db/checking/check-jobs'
import { verdictWords } from '#words/checking'
import { describeFault, faultHref } from '#words/fault'
import { outcomeWords, previewRepair } from '#words/repair'

export const describeOutcome = ({ repair, answer }: Outcome) => ({
  ...{ repair, isDone: answer.ok, detail: outcomeWords(repair, answer) },
})

const describeOne = (fault: Fault, outcome: Outcome | undefined) => ({
  ...{ faultId: fault.id, kind: fault.kind, weight: weightOf(fault.kind) },
  ...{ noun: fault.about.noun, nounId: fault.about.id, name: fault.about.name, page: faultHref(fault.about) },
  detail: describeFault(fault),
  repairs: repairsOf(fault).map((repair) => ({ repair, preview: previewRepair(fault, repair) })),
  outcome: outcome ? describeOutcome(outcome) : null,
})

export function describeCheck({ id, state, progress, startedAt, outcomes }: CheckJob) {
  const about = { jobId: id, state: state.kind, step: progress.step, startedAt: startedAt.toISOString() }
  if (state.kind !== 'ended')
    return { ...about, verdict: null, isSound: null, isWhole: null, seconds: null, looked: null, counts: [], faults: [] }
  const { answer } = state
  return {
    ...{ ...about, verdict: verdictWords(answer), isSound: isSound(answer), isWhole: answer.isWhole },
    ...{ seconds: answer.seconds, looked: answer.looked },
    counts: (Object.keys(answer.counts) as FaultKind[]).map((kind) => ({ kind, count: answer.counts[kind] ?? 0 })),
    faults: answer.faults.map((fault) => describeOne(fault, outcomes.get(fault.id))),
  }
}
