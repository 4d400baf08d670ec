import type { OfferRefused } from '#lib/db/offer/offer-refusal'

/** Why a way a thread is sold was not written. */
export function describeOfferRefusal(refusal: OfferRefused): string {
  switch (refusal.kind) {
    case 'no-such-line':
      return 'This line is no longer on record.'
    case 'no-such-thread':
      return 'That thread is not of this line, or was removed meanwhile.'
    case 'no-such-offer':
      return 'This way it is sold is no longer on record.'
    case 'changed-meanwhile':
      return 'Somebody changed this while you were looking. Open the page again and look before you repeat it.'
    case 'offer-known':
      return 'The same put-ups in the same pack from the same shop are on record already. Change that one instead.'
  }
}
