import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { write } from '../write'
import type { OfferRefused } from './offer-refusal'

/**
 * A thread is no longer sold so. Lists that were made while it was keep what they say.
 *
 * @param input.version  what the person saw; left out, it goes as it stands
 */
export function removeOffer(input: { offerId: string; version?: number }): Promise<Result<null, OfferRefused>> {
  return write<null, OfferRefused>(async ({ tx }) => {
    const { offerId, version } = input
    const gone = await tx.threadOffer.deleteMany({ where: { id: offerId, ...(version !== undefined && { version }) } })
    if (gone.count > 0) return ok(null)
    const isThere = (await tx.threadOffer.count({ where: { id: offerId } })) > 0
    return refused(isThere ? { kind: 'changed-meanwhile' } : { kind: 'no-such-offer', offerId })
  })
}
