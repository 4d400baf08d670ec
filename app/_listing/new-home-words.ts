import { say, sayings } from '#language/say'
import type { NewHomeRefused } from '#lib/db/new-home/apply-new-home'
import type { HomedNoun } from '#lib/db/new-home/read-new-home'
import type { NewHomeUndoRefused } from '#lib/db/new-home/undo-new-home'
import type { WhyLeft } from '#lib/place/new-home'

/** The lists of things that can get another home together, and what their things are called. */
export const homedRooms = () =>
  ({
    cloth: { noun: 'cloth', word: 'piece', title: say('Cloth') },
    notions: { noun: 'notion', word: 'notion', title: say('Notions') },
  }) as const satisfies Record<string, { noun: HomedNoun; word: string; title: string }>
export type HomedRoom = keyof ReturnType<typeof homedRooms>

export const roomOfNoun = (noun: HomedNoun): HomedRoom => (noun === 'cloth' ? 'cloth' : 'notions')

export function describeNewHomeRefusal(refusal: NewHomeRefused): string {
  switch (refusal.kind) {
    case 'no-such-place':
      return say('That place was removed meanwhile. Choose another.')
    case 'kept-by-record':
      return say('Only the record puts things there: what was looked for in vain. Choose another place.')
    case 'changed-meanwhile':
      return say(
        'Something changed since this preview was drawn, so nothing was done. Open it again and look before you repeat it.',
      )
    case 'nothing-changes':
      return say('Nothing would change: all of them live there already.')
    case 'too-many':
      return say(
        '{count, plural, one {# thing} other {# things}} are more than {most, number}, the most that can be changed at once. Narrow the list.',
        { count: refusal.count, most: refusal.most },
      )
  }
}

export function describeNewHomeUndoRefusal(refusal: NewHomeUndoRefused): string {
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
