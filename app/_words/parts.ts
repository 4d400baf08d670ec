import { formatDate } from '#language/day'
import { say } from '#language/say'
import type { PartRefused } from '#lib/db/planning/days/save-part'
import type { TickPartRefused } from '#lib/db/planning/days/tick-part'

/** Why a part of a stitch-along was not written. */
export function partRefusalWords(refusal: PartRefused | TickPartRefused): string {
  switch (refusal.kind) {
    case 'no-such-project':
      return say('This project is no longer there.')
    case 'no-such-part':
      return say('This part is not there any more. Load the page again.')
    case 'changed-meanwhile':
      return say('Somebody changed this part meanwhile. Load the page again and look.')
    case 'due-before-out':
      return say('It is due before it comes out. Give it a later day, or none.')
    case 'too-many-parts':
      return say('A project has {most} parts at most.', { most: refusal.most })
    case 'not-yet':
      return say('{day} has not come yet. Give a day up to today.', { day: formatDate(refusal.day) })
  }
}
