import 'server-only'
import { type Result, refused } from '#lib/result'
import { planUse } from '#lib/stock/plan-amounts'
import type { NotEnough, NotEnoughFree } from '#lib/stock/stock-change'
import { type BatchEdit, changeBatch, type EditRefused, hasProject, type NoSuchProject, type StockChanged } from './change-batch'

export type UseRefused = NotEnough | NotEnoughFree | NoSuchProject | EditRefused

/**
 * Use up a length of a batch, or `all` there is of it, for a project or for none. What is promised to others is not used.
 *
 * @throws {RangeError} if the length is not a positive whole number
 */
export function recordUse(
  input: BatchEdit & { strandTenths: number | 'all'; projectId?: string | null; reason?: string | null },
): Promise<Result<StockChanged, UseRefused>> {
  return changeBatch<NotEnough | NotEnoughFree | NoSuchProject>(input, async ({ tx, batch, promises }) => {
    const { strandTenths, projectId, reason } = input
    if (projectId && !(await hasProject(tx, projectId))) return refused({ kind: 'no-such-project', projectId })
    return planUse(batch, { strandTenths, projectId, reason, promises })
  })
}
