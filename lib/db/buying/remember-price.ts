import 'server-only'
import type { Transaction } from '../client'
import { newId } from '../new-id'
import { findAlike } from '../offer/save-offer'

/** What was paid for whole packs of a line of thread becomes how it is sold: as a new offer, or as the price of the same one. */
export async function rememberPrice(
  tx: Transaction,
  paid: {
    threadId: string
    supplier: string | null
    putUpWord: string | null
    putUpStrandTenths: number
    packPutUps: number
    packs: number
    paidMinor: number
  },
): Promise<void> {
  const { threadId, packs, paidMinor, ...sold } = paid
  const thread = await tx.thread.findUnique({ where: { id: threadId }, select: { lineId: true } })
  if (!thread || packs < 1) return
  const priceMinor = Math.round(paidMinor / packs)
  const facts = { ...sold, lineId: thread.lineId, threadId: null }
  const known = await findAlike(tx, facts)
  if (known === null) await tx.threadOffer.create({ data: { id: newId(), ...facts, priceMinor } })
  else await tx.threadOffer.update({ where: { id: known }, data: { priceMinor, version: { increment: 1 } } })
}
