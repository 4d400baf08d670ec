import { answerSavedOffer } from '#api/describe-offer'
import { changeOfferOperation } from '#api/offers'
import { notFound } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { findOffer } from '#lib/db/offer/queries'

const change = serve(changeOfferOperation, async ({ path: { offerId }, body: { version, ...facts } }) => {
  const offer = await findOffer(offerId)
  if (!offer) return notFound('offer', offerId)
  return answerSavedOffer({ ...facts, lineId: offer.lineId, offerId, ...(version !== undefined && { version }) })
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: change })
