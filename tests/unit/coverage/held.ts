import { type FreeStock, freeStock } from '#lib/stock/free-stock'
import { aBatch } from '#tests/unit/stock/batches'

/** One batch of whole skeins of a thread, all of it free. */
export const held = (threadId: string, wholePutUps: number): FreeStock =>
  freeStock({
    threadId,
    batches: [aBatch({ id: threadId, threadId, wholePutUps })],
    promises: [],
    ownerIds: ['shop'],
  })
