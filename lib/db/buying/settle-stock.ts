import 'server-only'
import type { Bought } from '#lib/planning/buying/shop-list'
import { ok, type Result, refused } from '#lib/result'
import { planTakeBack } from '#lib/stock/plan-take-back'
import { applyStockChange, readBatches } from '../stock/apply-stock-change'
import { receiveWithin } from '../stock/receive-thread'
import type { Write } from '../write-gate'

/**
 * Why the stock cannot say what a line says: some of what was bought was used, or promised to a project, since; its batch was laid with
 * other thread or removed; or the thread that was bought is gone.
 */
export type NotSettled = 'used-since' | 'promised-since' | 'gone' | 'no-such-thread'

/**
 * Make the stock say what a line of a list says: what it brought before is taken back, then what it brings now is received where it
 * lives. Refused, nothing was written.
 *
 * @param input.was         what it brought, and the batch it lies in; null: nothing
 * @param input.placeLabel  where it goes by label, before `homePlaceId`
 * @returns the batch it lies in now, null for nothing
 */
export async function settleStock(
  writing: Write,
  input: {
    was: { bought: Bought; batchId: string } | null
    is: Bought | null
    ownerId: string
    placeLabel: string | null
    homePlaceId: string | null
    reason: string
    who: string | null
  },
): Promise<Result<string | null, NotSettled | 'changed-meanwhile'>> {
  const { tx } = writing
  const { was, is, ownerId, placeLabel, homePlaceId, reason, who } = input
  if (is && (await tx.thread.count({ where: { id: is.threadId, goneAt: null } })) === 0) return refused('no-such-thread')
  let laidAt = homePlaceId
  if (was) {
    const { batches, promises, versions } = await readBatches(tx, { id: was.batchId })
    const [batch] = batches
    if (!batch || batch.threadId !== was.bought.threadId || batch.ownerId !== ownerId) return refused('gone')
    const isAlone = (await tx.movement.count({ where: { batchId: batch.id } })) === 1
    const planned = planTakeBack(batch, { wholePutUps: was.bought.putUps, isAlone, promises })
    if (!planned.ok) return refused(planned.error.kind)
    const change = { ...planned.value, movements: planned.value.movements.map((movement) => ({ ...movement, reason })) }
    const applied = await applyStockChange(writing, change, { versions, who })
    if (!applied.ok) return refused('changed-meanwhile')
    // Said anew of the same thread, it stays where it was put.
    if (is?.threadId === was.bought.threadId) laidAt = batch.homePlaceId ?? homePlaceId
  }
  if (!is) return ok(null)
  const received = await receiveWithin(writing, {
    ...{ threadId: is.threadId, ownerId, lot: is.lot, putUpWord: is.putUpWord, putUpStrandTenths: is.putUpStrandTenths },
    ...{ wholePutUps: is.putUps, partStrandTenths: 0, partCertainty: 'none' },
    homePlaceId: laidAt,
    ...(placeLabel !== null && { homePlaceLabel: placeLabel }),
    ...{ reason, who },
  })
  if (!received.ok) return refused(received.error.kind === 'no-such-thread' ? 'no-such-thread' : 'changed-meanwhile')
  return ok(received.value.batchId)
}
