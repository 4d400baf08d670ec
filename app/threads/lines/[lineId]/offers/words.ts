import { say } from '#language/say'
import type { OfferRefused } from '#lib/db/offer/offer-refusal'

/** Why a way a thread is sold was not written. */
export function describeOfferRefusal(refusal: OfferRefused): string {
  switch (refusal.kind) {
    case 'no-such-line':
      return say('This line is no longer on record.')
    case 'no-such-thread':
      return say('That thread is not of this line, or was removed meanwhile.')
    case 'no-such-offer':
      return say('This way it is sold is no longer on record.')
    case 'changed-meanwhile':
      return say('Somebody changed this while you were looking. Open the page again and look before you repeat it.')
    case 'offer-known':
      return say('The same put-ups in the same pack from the same shop are on record already. Change that one instead.')
  }
}
