import { say, sayings } from '#language/say'
import type { CutObjective } from '#lib/cloth/cut-plan'
import type { CutPriority } from '#lib/coverage/asked-cut'
import type { CutPlanStatus } from '#lib/db/cut-plan/queries'
import type { SearchedCut } from '#lib/db/cut-plan/start-cut'
import { secondsRun } from '#lib/db/job/jobs'

export const objectiveWords: Record<CutObjective, { label: string; note: string }> = sayings({
  'largest offcut': { label: 'Keep one large offcut', note: 'The largest single piece that can be left of each cloth.' },
  'least waste': { label: 'Least waste', note: 'Waste is what is left in pieces too small to be of use.' },
  'fewest cuts': { label: 'Fewest cuts', note: 'The least work with the shears.' },
  'most value': { label: 'Most worth', note: 'Only counts what is cut, by its worth.' },
})

export const priorityWords: Record<CutPriority, string> = sayings({
  'must have': 'must have',
  wanted: 'wanted',
  'if there is room': 'if there is room',
})

export const statusWords: Record<CutPlanStatus, string> = sayings({
  kept: 'to be cut',
  cut: 'carried out',
  dropped: 'given up',
})

/** How a search ended. */
export function endingWords(job: Pick<SearchedCut, 'state' | 'startedAt' | 'endedAt'>): string {
  const seconds = Math.round(secondsRun(job))
  const after =
    seconds < 1 ? say('in less than a second') : say('after {seconds, plural, one {# second} other {# seconds}}', { seconds })
  switch (job.state.kind) {
    case 'running':
      return say('The search goes on.')
    case 'searched':
      return say('The search came to its end {after}.', { after })
    case 'out-of-time':
      return say('The search was ended by its time limit {after}; a longer one may find better.', { after })
    case 'stopped':
      return say('The search was stopped {after}; a longer one may find better.', { after })
    case 'failed':
      return say('The search broke off {after}.', { after })
  }
}
