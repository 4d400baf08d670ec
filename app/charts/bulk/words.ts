import { say, sayings } from '#language/say'
import type { ChartBulkChange, ChartBulkLeft, ChartBulkValue, ChartBulkWhyNot } from '#lib/chart/plan-chart-bulk'
import type { ChartBulkRefused } from '#lib/db/chart-bulk/apply-chart-bulk'
import type { ChartBulkNames } from '#lib/db/chart-bulk/queries'
import type { ChartBulkUndoRefused } from '#lib/db/chart-bulk/undo-chart-bulk'
import { counted } from '#words/amounts'
import { endingWords } from './schema'

const starsWords = (stars: number | null): string => (stars === null ? say('no stars') : counted(stars, 'star'))

/** A value of a chart, design or wish in words, for before and after. */
export function valueWords(kind: ChartBulkChange['kind'], value: ChartBulkValue, names: ChartBulkNames): string {
  if (typeof value === 'object' && value !== null) return names.places.get(value.homePlaceId ?? '') ?? say('no place yet')
  switch (kind) {
    case 'home':
      return names.places.get(String(value)) ?? say('no place yet')
    case 'owner':
      return names.owners.get(String(value)) ?? say('nobody')
    case 'gone':
      return counted(Number(value), 'copy')
    case 'add-theme':
    case 'take-theme':
      return value === true ? say('has it') : say('without it')
    case 'stars':
      return starsWords(typeof value === 'number' ? value : null)
  }
}

/** What a change makes of it, in words. */
export function afterWords(change: ChartBulkChange, names: ChartBulkNames): string {
  switch (change.kind) {
    case 'home':
      return names.places.get(change.toPlaceId) ?? say('another place')
    case 'owner':
      return names.owners.get(change.toOwnerId) ?? say('another owner')
    case 'gone':
      return endingWords[change.ending]
    case 'add-theme':
      return say('has it')
    case 'take-theme':
      return say('without it')
    case 'stars':
      return starsWords(change.stars)
  }
}

/** What the two columns are of. */
export const kindWords: Record<ChartBulkChange['kind'], string> = sayings({
  home: 'Lives in',
  owner: 'Owner',
  gone: 'Held',
  'add-theme': 'Theme',
  'take-theme': 'Theme',
  stars: 'Wished for',
})

export function describeWhyNot(why: ChartBulkWhyNot): string {
  switch (why.kind) {
    case 'in-work':
      return say(
        '{projects, plural, one {# project} other {# projects}} under way {projects, plural, one {is} other {are}} worked from it: finish or end that first',
        { projects: why.projects },
      )
    case 'is-a-file':
      return say('it is a file, and goes to nobody')
    case 'not-wished':
      return say('it is not among the wishes: open it, press “Start this” and tick that it is a wish')
  }
}

const leftWords: Record<ChartBulkLeft['why'], string> = sayings({
  'changed-since': 'changed since, so it was left alone',
  gone: 'no longer there',
  'place-gone': 'the place it lived in was removed, so it was left alone',
})
export const describeLeft = ({ why }: ChartBulkLeft): string => leftWords[why]

export function describeBulkRefusal(refusal: ChartBulkRefused): string {
  switch (refusal.kind) {
    case 'no-such-place':
      return say('That place was removed meanwhile. Choose another.')
    case 'no-such-owner':
      return say('Nobody of that name is on record any more.')
    case 'no-such-theme':
      return say('That theme is not on record any more.')
    case 'kept-by-record':
      return say('Only the record puts things there: what was looked for in vain. Choose another place.')
    case 'changed-meanwhile':
      return say(
        'Something changed since this preview was drawn, so nothing was done. Open it again and look before you repeat it.',
      )
    case 'nothing-changes':
      return say('Nothing would change: all is so already, or cannot be.')
    case 'too-many':
      return say(
        '{count, plural, one {# design} other {# designs}} are more than {most, number}, the most that can be changed at once. Narrow the list.',
        { count: refusal.count, most: refusal.most },
      )
  }
}

export function describeBulkUndoRefusal(refusal: ChartBulkUndoRefused): string {
  switch (refusal.kind) {
    case 'no-such-edit':
      return say('This change is no longer on record.')
    case 'already-undone':
      return say('It was taken back already.')
  }
}
