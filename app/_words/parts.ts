import { formatDate } from '#language/day'
import type { PartRefused } from '#lib/db/planning/days/save-part'
import type { TickPartRefused } from '#lib/db/planning/days/tick-part'

/** Why a part of a stitch-along was not written. */
export function partRefusalWords(refusal: PartRefused | TickPartRefused): string {
  switch (refusal.kind) {
    case 'no-such-project':
      return 'This project is no longer there.'
    case 'no-such-part':
      return 'This part is not there any more. Load the page again.'
    case 'changed-meanwhile':
      return 'Somebody changed this part meanwhile. Load the page again and look.'
    case 'due-before-out':
      return 'It is due before it comes out. Give it a later day, or none.'
    case 'too-many-parts':
      return `A project has ${refusal.most} parts at most.`
    case 'not-yet':
      return `${formatDate(refusal.day)} has not come yet. Give a day up to today.`
  }
}
