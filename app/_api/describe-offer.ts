import type { OfferRefused } from '#lib/db/offer/offer-refusal'
import { findOffer, type OfferRow } from '#lib/db/offer/queries'
import type { OfferFacts } from '#lib/db/offer/save-offer'
import { saveOffer } from '#lib/db/offer/save-offer'
import { notFound, Problem } from './problem'

export const describeOffer = ({ thread: _thread, ...offer }: OfferRow) => offer

/** Save an offer, and answer with it as it is then. */
export async function answerSavedOffer(input: OfferFacts & { offerId: string | null; version?: number }) {
  const saved = await saveOffer(input)
  if (!saved.ok) return describeOfferProblem(saved.error)
  const offer = await findOffer(saved.value.offerId)
  return offer ? { offer: describeOffer(offer) } : notFound('offer', saved.value.offerId)
}

/** Why an offer was not written. */
export function describeOfferProblem(refusal: OfferRefused): Problem {
  switch (refusal.kind) {
    case 'no-such-line':
      return notFound('line of thread', refusal.lineId)
    case 'no-such-offer':
      return notFound('offer', refusal.offerId)
    case 'no-such-thread':
      return new Problem('refused', 'The thread is not of this line, or is no longer on record.')
    case 'changed-meanwhile':
      return new Problem('refused', 'It was changed meanwhile. Read it again, then ask with its new version.')
    case 'offer-known':
      return new Problem('refused', `The same is on record as the offer ${refusal.offerId}. Change that one.`)
  }
}
