import type { CutObjective } from '#lib/cloth/cut-plan'
import type { CutPriority } from '#lib/coverage/asked-cut'
import type { CutPlanStatus } from '#lib/db/cut-plan/queries'
import type { SearchedCut } from '#lib/db/cut-plan/start-cut'
import { secondsRun } from '#lib/db/job/jobs'
import { counted } from '#words/amounts'

export const objectiveWords: Record<CutObjective, { label: string; note: string }> = {
  'largest offcut': { label: 'Keep one large offcut', note: 'The largest single piece that can be left of each cloth.' },
  'least waste': { label: 'Least waste', note: 'Waste is what is left in pieces too small to be of use.' },
  'fewest cuts': { label: 'Fewest cuts', note: 'The least work with the shears.' },
  'most value': { label: 'Most worth', note: 'Only counts what is cut, by its worth.' },
}

export const priorityWords: Record<CutPriority, string> = {
  'must have': 'must have',
  wanted: 'wanted',
  'if there is room': 'if there is room',
}

export const statusWords: Record<CutPlanStatus, string> = {
  kept: 'to be cut',
  cut: 'carried out',
  dropped: 'given up',
}

/** How a search ended. */
export function endingWords(job: Pick<SearchedCut, 'state' | 'startedAt' | 'endedAt'>): string {
  const seconds = Math.round(secondsRun(job))
  const after = seconds < 1 ? 'in less than a second' : `after ${counted(seconds, 'second')}`
  switch (job.state.kind) {
    case 'running':
      return 'The search goes on.'
    case 'searched':
      return `The search came to its end ${after}.`
    case 'out-of-time':
      return `The search was ended by its time limit ${after}; a longer one may find better.`
    case 'stopped':
      return `The search was stopped ${after}; a longer one may find better.`
    case 'failed':
      return `The search broke off ${after}.`
  }
}
