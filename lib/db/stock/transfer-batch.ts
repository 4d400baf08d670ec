import 'server-only'
import { type Result, refused } from '#lib/result'
import { planTransfer } from '#lib/stock/movements'
import { type BatchEdit, changeBatch, type EditRefused, hasOwner, type NoSuchOwner, type StockChanged } from './change-batch'

type NotTransferred =
  | { kind: 'already-theirs'; ownerId: string }
  | { kind: 'promised'; batchId: string; projectIds: string[] }
  | NoSuchOwner
export type TransferRefused = NotTransferred | EditRefused

/** Pass the whole of a batch to another owner; it stays where it is. */
export function transferBatch(
  input: BatchEdit & { toOwnerId: string; reason?: string | null },
): Promise<Result<StockChanged, TransferRefused>> {
  return changeBatch<NotTransferred>(input, async ({ tx, batch, promises }) => {
    const { toOwnerId, reason } = input
    if (!(await hasOwner(tx, toOwnerId))) return refused({ kind: 'no-such-owner', ownerId: toOwnerId })
    return planTransfer(batch, { toOwnerId, reason, promises })
  })
}
