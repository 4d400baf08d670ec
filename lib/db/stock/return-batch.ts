import 'server-only'
import type { Result } from '#lib/result'
import { planReturn } from '#lib/stock/plan-place'
import { readBatches } from './apply-stock-change'
import { type BatchEdit, changeBatch, type EditRefused, type StockChanged } from './change-batch'
import { findEqualAtHome } from './find-equal-at-home'

type NotReturned = { kind: 'not-out'; batchId: string } | { kind: 'not-equal'; batchId: string }
export type ReturnRefused = NotReturned | EditRefused

/** Put a batch that is out back where it lives, laid with an equal one there when there is one. */
export function returnBatch(
  input: BatchEdit & { projectId?: string | null; reason?: string | null },
): Promise<Result<StockChanged, ReturnRefused>> {
  return changeBatch<NotReturned>(input, async ({ tx, batch, promises, versions }) => {
    const { projectId, reason } = input
    const { parentId } = await tx.batch.findUniqueOrThrow({ where: { id: batch.id }, select: { parentId: true } })
    const atHome = await findEqualAtHome(tx, { ...batch, parentId })
    if (!atHome) return planReturn(batch, { projectId, reason, promises })
    versions.set(atHome.batch.id, atHome.version)
    const there = await readBatches(tx, { id: atHome.batch.id })
    return planReturn(batch, { atHome: atHome.batch, projectId, reason, promises: [...promises, ...there.promises] })
  })
}
