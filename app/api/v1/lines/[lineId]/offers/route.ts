import { answerSavedOffer, describeOffer } from '#api/describe-offer'
import { addOfferOperation, listOffersOperation } from '#api/offers'
import { notFound } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { listOffers } from '#lib/db/offer/queries'
import { findLine } from '#lib/db/thread/list-lines'

const list = serve(listOffersOperation, async ({ path: { lineId } }) => {
  const [line, offers] = await Promise.all([findLine(lineId), listOffers(lineId)])
  if (!line) return notFound('line of thread', lineId)
  const { putUpStrandTenths, priceMinor } = line
  return { lineId, putUpStrandTenths, priceMinor, offers: offers.map(describeOffer) }
})

const add = serve(addOfferOperation, ({ path, body }) => answerSavedOffer({ ...body, ...path, offerId: null }))

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list, POST: add })
