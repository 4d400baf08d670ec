import { say } from '#language/say'
import type { TimeAwayRefused } from '#lib/db/planning/days/save-time-away'

/** Why a time away was not kept. */
export function timeAwayRefusalWords(refusal: TimeAwayRefused): string {
  switch (refusal.kind) {
    case 'ends-before-it-begins':
      return say('The last day away comes before the first.')
    case 'changed-meanwhile':
      return say('Somebody changed this time away meanwhile. Load the page again and look.')
    case 'no-such-time-away':
      return say('This time away is not on record any more. Load the page again.')
    case 'no-such-owner':
      return say('Choose who is away.')
  }
}
