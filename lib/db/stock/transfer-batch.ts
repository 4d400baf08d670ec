import 'server-only'
import { type Result, refused } from '#lib/result'
import type { Parting } from '#lib/stock/part-off'
import { planTransfer, planTransferPart } from '#lib/stock/plan-batches'
import type { AlreadyTheirs, NotEnough, NotEnoughFree, NothingParted, Promised } from '#lib/stock/stock-change'
import { newId } from '../new-id'
import { type BatchEdit, changeBatch, type EditRefused, hasOwner, type NoSuchOwner, type StockChanged } from './change-batch'

type NotTransferred = AlreadyTheirs | Promised | NotEnough | NotEnoughFree | NothingParted | NoSuchOwner
export type TransferRefused = NotTransferred | EditRefused

/**
 * Pass a batch, or some of it, to another owner; it stays where it is. `batchId` of the answer is what was passed on.
 *
 * @param input.parting  what of it; left out, all of it
 */
export function transferBatch(
  input: BatchEdit & { toOwnerId: string; parting?: Parting | null; reason?: string | null },
): Promise<Result<StockChanged, TransferRefused>> {
  return changeBatch<NotTransferred>(input, async ({ tx, batch, promises }) => {
    const { toOwnerId, parting, reason } = input
    if (!(await hasOwner(tx, toOwnerId))) return refused({ kind: 'no-such-owner', ownerId: toOwnerId })
    return parting
      ? planTransferPart(batch, { ...parting, toOwnerId, newBatchId: newId(), reason, promises })
      : planTransfer(batch, { toOwnerId, reason, promises })
  })
}
