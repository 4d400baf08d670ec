import { say, sayings } from '#language/say'
import type { BulkRefused } from '#lib/db/bulk-edit/apply-bulk-edit'
import type { LineNames } from '#lib/db/bulk-edit/name-lines'
import type { BulkUndoRefused } from '#lib/db/bulk-edit/undo-bulk-edit'
import type { BulkValue, KeptChange, LeftAlone, WhyNot } from '#lib/stock/plan-bulk-edit'

/** A value of a thread or a batch in words, for before and after. */
export function valueWords(kind: KeptChange['kind'], value: BulkValue, names: LineNames): string {
  if (typeof value === 'object' && value !== null) return names.places.get(value.homePlaceId ?? '') ?? say('no place yet')
  switch (kind) {
    case 'minimum':
      return value === null ? say('none') : String(value)
    case 'family':
      return value === null ? say('by its colour') : String(value)
    case 'leaving':
      return value === true ? say('no longer made') : say('still made')
    case 'home':
    case 'filing':
      return names.places.get(String(value)) ?? say('no place yet')
    case 'owner':
      return names.owners.get(String(value)) ?? say('nobody')
    case 'lot':
      return value === null ? say('no lot mark') : String(value)
  }
}

/** What a change sets, as a value of its kind; `toPlaceId` is the home filing gave this line. */
export function valueAfter(change: KeptChange, toPlaceId?: string): BulkValue {
  switch (change.kind) {
    case 'minimum':
      return change.putUps
    case 'family':
      return change.family
    case 'leaving':
      return change.isLeaving
    case 'home':
      return change.toPlaceId
    case 'filing':
      return toPlaceId ?? null
    case 'owner':
      return change.toOwnerId
    case 'lot':
      return change.lot
  }
}

/** What the two columns are of. */
export const kindWords: Record<KeptChange['kind'], string> = sayings({
  minimum: 'Least to keep',
  family: 'Filed under',
  leaving: 'Made',
  home: 'Lives in',
  filing: 'Lives in',
  owner: 'Owner',
  lot: 'Lot',
})

export function describeWhyNot(why: WhyNot): string {
  switch (why.kind) {
    case 'promised':
      return say('promised to {projectIds, plural, one {# project} other {# projects}} of its owner: release that first', {
        projectIds: why.projectIds.length,
      })
    case 'has-lot':
      return say('it is of lot {lot}: two lots are never run together', { lot: why.lot })
    case 'nothing-held':
      return say('nothing is left of it')
    case 'no-stock':
      return say('none of it is held')
  }
}

const leftWords: Record<LeftAlone['why'], string> = sayings({
  'changed-since': 'changed since, so it was left alone',
  gone: 'no longer there',
  'place-gone': 'the place it lived in was removed, so it was left alone',
})
export const describeLeft = ({ why }: LeftAlone): string => leftWords[why]

export function describeBulkRefusal(refusal: BulkRefused): string {
  switch (refusal.kind) {
    case 'no-such-place':
      return say('That place was removed meanwhile. Choose another.')
    case 'no-such-owner':
      return say('Nobody of that name is on record any more.')
    case 'changed-meanwhile':
      return say(
        'Something changed since this preview was drawn, so nothing was done. Open it again and look before you repeat it.',
      )
    case 'nothing-changes':
      return say('Nothing would change: all is so already, or cannot be.')
    case 'too-many':
      return say(
        '{count, plural, one {# thread} other {# threads}} are more than {most, number}, the most that can be changed at once. Narrow the list.',
        { count: refusal.count, most: refusal.most },
      )
  }
}

export function describeBulkUndoRefusal(refusal: BulkUndoRefused): string {
  switch (refusal.kind) {
    case 'no-such-edit':
      return say('This change is no longer on record.')
    case 'already-undone':
      return say('It was taken back already.')
    case 'changed-meanwhile':
      return say('Somebody changed some of it this moment. Try again.')
  }
}
