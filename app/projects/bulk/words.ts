import { formatDate } from '#language/day'
import { say, sayings } from '#language/say'
import type { ProjectBulkRefused } from '#lib/db/project-bulk/apply-project-bulk'
import type { ProjectBulkUndoRefused } from '#lib/db/project-bulk/undo-project-bulk'
import type { WhyLeft } from '#lib/place/new-home'
import type { ProjectBulkChange, ProjectFacts } from '#lib/project/plan-project-bulk'
import { counted } from '#words/amounts'

export function describeBulkRefusal(refusal: ProjectBulkRefused): string {
  switch (refusal.kind) {
    case 'changed-meanwhile':
      return say(
        'Something changed since this preview was drawn, so nothing was done. Open it again and look before you repeat it.',
      )
    case 'nothing-changes':
      return say('Nothing would change: all of it is so already.')
    case 'too-many':
      return say(
        '{count, plural, one {# project} other {# projects}} are more than {most, number}, the most that can be changed at once. Narrow the list.',
        { count: refusal.count, most: refusal.most },
      )
  }
}

export function describeBulkUndoRefusal(refusal: ProjectBulkUndoRefused): string {
  switch (refusal.kind) {
    case 'no-such-edit':
      return say('This change is no longer on record.')
    case 'already-undone':
      return say('It was taken back already.')
  }
}

export const leftWords: Record<WhyLeft, string> = sayings({
  'changed-since': 'changed since, so it was left alone',
  gone: 'no longer there',
  'place-gone': 'the place it lived in was removed, so it was left alone',
})

export const kindWords: Record<ProjectBulkChange['kind'], string> = sayings({
  due: 'Due, before',
  planned: 'To be begun, before',
  'for-whom': 'For whom, before',
  stars: 'Stars, before',
})

/** A fact as it was or is to be, in words. */
export function factWords(kind: ProjectBulkChange['kind'], facts: Partial<ProjectFacts>): string {
  switch (kind) {
    case 'due':
      return facts.dueOn ? formatDate(facts.dueOn) : say('no day')
    case 'planned':
      return facts.plannedOn ? formatDate(facts.plannedOn) : say('no day')
    case 'for-whom':
      return facts.forWhom ?? say('nobody')
    case 'stars':
      return facts.stars ? counted(facts.stars, 'star') : say('no stars')
  }
}
