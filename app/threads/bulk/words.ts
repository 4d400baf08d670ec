import { numberText } from '#language/figures'
import type { BulkRefused } from '#lib/db/bulk-edit/apply-bulk-edit'
import type { LineNames } from '#lib/db/bulk-edit/name-lines'
import type { BulkUndoRefused } from '#lib/db/bulk-edit/undo-bulk-edit'
import type { BulkValue, KeptChange, LeftAlone, WhyNot } from '#lib/stock/plan-bulk-edit'
import { counted } from '#words/amounts'

/** A value of a thread or a batch in words, for before and after. */
export function valueWords(kind: KeptChange['kind'], value: BulkValue, names: LineNames): string {
  if (typeof value === 'object' && value !== null) return names.places.get(value.homePlaceId ?? '') ?? 'no place yet'
  switch (kind) {
    case 'minimum':
      return value === null ? 'none' : String(value)
    case 'family':
      return value === null ? 'by its colour' : String(value)
    case 'leaving':
      return value === true ? 'no longer made' : 'still made'
    case 'home':
    case 'filing':
      return names.places.get(String(value)) ?? 'no place yet'
    case 'owner':
      return names.owners.get(String(value)) ?? 'nobody'
    case 'lot':
      return value === null ? 'no lot mark' : String(value)
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
export const kindWords: Record<KeptChange['kind'], string> = {
  minimum: 'Least to keep',
  family: 'Filed under',
  leaving: 'Made',
  home: 'Lives in',
  filing: 'Lives in',
  owner: 'Owner',
  lot: 'Lot',
}

export function describeWhyNot(why: WhyNot): string {
  switch (why.kind) {
    case 'promised':
      return `promised to ${counted(why.projectIds.length, 'project')} of its owner: release that first`
    case 'has-lot':
      return `it is of lot ${why.lot}: two lots are never run together`
    case 'nothing-held':
      return 'nothing is left of it'
    case 'no-stock':
      return 'none of it is held'
  }
}

const leftWords: Record<LeftAlone['why'], string> = {
  'changed-since': 'changed since, so it was left alone',
  gone: 'no longer there',
  'place-gone': 'the place it lived in was removed, so it was left alone',
}
export const describeLeft = ({ why }: LeftAlone): string => leftWords[why]

export function describeBulkRefusal(refusal: BulkRefused): string {
  switch (refusal.kind) {
    case 'no-such-place':
      return 'That place was removed meanwhile. Choose another.'
    case 'no-such-owner':
      return 'Nobody of that name is on record any more.'
    case 'changed-meanwhile':
      return 'Something changed since this preview was drawn, so nothing was done. Open it again and look before you repeat it.'
    case 'nothing-changes':
      return 'Nothing would change: all is so already, or cannot be.'
    case 'too-many':
      return `${counted(refusal.count, 'thread')} are more than ${numberText(refusal.most)}, the most that can be changed at once. Narrow the list.`
  }
}

export function describeBulkUndoRefusal(refusal: BulkUndoRefused): string {
  switch (refusal.kind) {
    case 'no-such-edit':
      return 'This change is no longer on record.'
    case 'already-undone':
      return 'It was taken back already.'
    case 'changed-meanwhile':
      return 'Somebody changed some of it this moment. Try again.'
  }
}
