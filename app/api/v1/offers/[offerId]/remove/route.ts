import { describeOfferProblem } from '#api/describe-offer'
import { removeOfferOperation } from '#api/offers'
import { endpoint, serve } from '#api/serve'
import { removeOffer } from '#lib/db/offer/remove-offer'

const remove = serve(removeOfferOperation, async ({ path, body: { version } }) => {
  const removed = await removeOffer({ ...path, ...(version !== undefined && { version }) })
  return removed.ok ? { ok: true as const } : describeOfferProblem(removed.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: remove })
