import 'server-only'
import { textKey } from '#lib/quantity/text-key'
import { ok, type Result, refused } from '#lib/result'
import type { Transaction } from '../client'
import { newId } from '../new-id'
import { write } from '../write'
import type { OfferRefused } from './offer-refusal'

/** What one asks for a line of thread, or for one thread of it. */
export type OfferFacts = {
  lineId: string
  /** Null: the whole line is sold so. */
  threadId: string | null
  supplier: string | null
  /** Null: as the line calls one. */
  putUpWord: string | null
  putUpStrandTenths: number
  packPutUps: number
  /** Of one pack. */
  priceMinor: number
  note: string | null
}

/**
 * Put down a way a thread is sold, or change one.
 *
 * @param input.offerId  null: a new one
 * @param input.version  what the person saw; left out, it is taken as it stands
 * @throws {RangeError} if a length or pack is not a whole number above nought, or the price is below it.
 */
export function saveOffer(
  input: OfferFacts & { offerId: string | null; version?: number },
): Promise<Result<{ offerId: string }, OfferRefused>> {
  const { offerId, version, ...facts } = input
  const { lineId, threadId, putUpStrandTenths, packPutUps, priceMinor } = facts
  const isRight = [putUpStrandTenths, packPutUps, priceMinor].every(Number.isSafeInteger)
  if (!isRight || putUpStrandTenths < 1 || packPutUps < 1 || packPutUps > 999 || priceMinor < 0)
    throw new RangeError(`saveOffer: ${packPutUps} of ${putUpStrandTenths} at ${priceMinor}`)
  return write<{ offerId: string }, OfferRefused>(async ({ tx }) => {
    if ((await tx.threadLine.count({ where: { id: lineId } })) === 0) return refused({ kind: 'no-such-line', lineId })
    if (threadId !== null && (await tx.thread.count({ where: { id: threadId, lineId, goneAt: null } })) === 0)
      return refused({ kind: 'no-such-thread', threadId })
    const known = await findAlike(tx, facts)
    if (known !== null && known !== offerId) return refused({ kind: 'offer-known', offerId: known })
    if (offerId === null) {
      const id = newId()
      await tx.threadOffer.create({ data: { id, ...facts } })
      return ok({ offerId: id })
    }
    const before = await tx.threadOffer.findUnique({ where: { id: offerId }, select: { version: true } })
    if (!before) return refused({ kind: 'no-such-offer', offerId })
    const claimed = await tx.threadOffer.updateMany({
      where: { id: offerId, version: version ?? before.version },
      data: { ...facts, version: { increment: 1 } },
    })
    return claimed.count === 0 ? refused({ kind: 'changed-meanwhile' }) : ok({ offerId })
  })
}

/** The offer of the same put-ups in the same pack from the same shop; names as read aloud. */
export async function findAlike(tx: Transaction, facts: Omit<OfferFacts, 'priceMinor' | 'note'>): Promise<string | null> {
  const { lineId, threadId, supplier, putUpWord, putUpStrandTenths, packPutUps } = facts
  const rows = await tx.threadOffer.findMany({
    where: { lineId, threadId, putUpStrandTenths, packPutUps },
    select: { id: true, supplier: true, putUpWord: true },
    orderBy: { id: 'asc' },
  })
  const alike = (a: string | null, b: string | null) => textKey(a ?? '') === textKey(b ?? '')
  return rows.find((row) => alike(row.supplier, supplier) && alike(row.putUpWord, putUpWord))?.id ?? null
}
