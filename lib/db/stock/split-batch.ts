import 'server-only'
import { type Result, refused } from '#lib/result'
import type { Parting } from '#lib/stock/part-off'
import { planSplit } from '#lib/stock/plan-batches'
import type { NotEnough, NotEnoughFree, NothingParted } from '#lib/stock/stock-change'
import { newId } from '../new-id'
import { type BatchEdit, changeBatch, type EditRefused, hasPlace, type NoSuchPlace, type StockChanged } from './change-batch'

type NotSplit = NotEnough | NotEnoughFree | NothingParted | { kind: 'nothing-left'; batchId: string } | NoSuchPlace
export type SplitRefused = NotSplit | EditRefused

/**
 * Part a batch in two: what is parted off becomes a batch of its own, with a home and a place of its own if they are named (see
 * `planSplit`). `batchId` of the answer is the new one.
 */
export function splitBatch(
  input: BatchEdit & Parting & { homePlaceId?: string | null; currentPlaceId?: string | null; reason?: string | null },
): Promise<Result<StockChanged, SplitRefused>> {
  return changeBatch<NotSplit>(input, async ({ tx, batch, promises }) => {
    for (const placeId of [input.homePlaceId, input.currentPlaceId])
      if (placeId && !(await hasPlace(tx, placeId))) return refused({ kind: 'no-such-place', placeId })
    return planSplit(batch, { ...input, newBatchId: newId(), promises })
  })
}
