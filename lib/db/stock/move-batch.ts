import 'server-only'
import { type Result, refused } from '#lib/result'
import { planMove } from '#lib/stock/plan-place'
import type { AlreadyThere } from '#lib/stock/stock-change'
import { type BatchEdit, changeBatch, type EditRefused, hasPlace, type NoSuchPlace, type StockChanged } from './change-batch'

export type MoveRefused = AlreadyThere | NoSuchPlace | EditRefused

/** Move the whole of a batch: to live there (`becomesHome`), or for a while. */
export function moveBatch(
  input: BatchEdit & { toPlaceId: string; becomesHome: boolean; reason?: string | null },
): Promise<Result<StockChanged, MoveRefused>> {
  return changeBatch<AlreadyThere | NoSuchPlace>(input, async ({ tx, batch }) => {
    const { toPlaceId, becomesHome, reason } = input
    if (!(await hasPlace(tx, toPlaceId))) return refused({ kind: 'no-such-place', placeId: toPlaceId })
    return planMove(batch, { toPlaceId, becomesHome, reason })
  })
}
