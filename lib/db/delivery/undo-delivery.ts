import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { type NotTakenBack, planTakeBack } from '#lib/stock/plan-take-back'
import { applyStockChange, type ChangedMeanwhile, readBatches } from '../stock/apply-stock-change'
import { write } from '../write'
import { notComeOfOrder } from './enter-delivery'

export type UndoDeliveryRefused =
  | { kind: 'no-such-entry'; entryId: string }
  /** What came in was laid with other thread since, or removed. */
  | { kind: 'no-such-batch'; batchId: string }
  | ChangedMeanwhile
  | NotTakenBack

/** The id of the line of the journal that takes an entry back: one entry has but one. */
const undoId = (entryId: string): string => `${entryId}:undo`

/**
 * Take one entry of a delivery back. Asked again it is answered and not taken back again.
 *
 * @param input.orderId  the order it was received by, which has so much less then
 */
export function undoDelivery(input: {
  entryId: string
  orderId?: string | null
  who?: string | null
}): Promise<Result<{ batchId: string; isRepeat: boolean }, UndoDeliveryRefused>> {
  type Done = { batchId: string; isRepeat: boolean }
  return write<Done, UndoDeliveryRefused>(async (writing) => {
    const { tx, revision, at } = writing
    const { entryId } = input
    const line = await tx.movement.findUnique({
      where: { id: entryId },
      select: { kind: true, batchId: true, wholeDelta: true },
    })
    if (line?.kind !== 'receive' || line.batchId === null || line.wholeDelta < 1)
      return refused({ kind: 'no-such-entry', entryId })
    const { batchId } = line
    if ((await tx.movement.count({ where: { id: undoId(entryId) } })) > 0) return ok({ batchId, isRepeat: true })

    const { batches, promises, versions } = await readBatches(tx, { id: batchId })
    const [batch] = batches
    if (!batch) return refused({ kind: 'no-such-batch', batchId })
    const isAlone = (await tx.movement.count({ where: { batchId } })) === 1
    const planned = planTakeBack(batch, { wholePutUps: line.wholeDelta, isAlone, promises })
    if (!planned.ok) return planned
    const applied = await applyStockChange(writing, { ...planned.value, movements: [] }, { versions })
    if (!applied.ok) return applied
    await tx.movement.createMany({
      data: planned.value.movements.map((movement) => ({
        ...movement,
        id: undoId(entryId),
        revision,
        at,
        who: input.who ?? null,
      })),
    })
    if (input.orderId) await notComeOfOrder(tx, { id: input.orderId, threadId: batch.threadId, wholePutUps: line.wholeDelta })
    return ok({ batchId, isRepeat: false })
  })
}
