import 'server-only'
import { openStatuses } from '#lib/project/life-cycle'
import { ok, type Result, refused } from '#lib/result'
import { planPromise } from '#lib/stock/plan-promise'
import type { NotEnoughFree } from '#lib/stock/stock-change'
import { type BatchEdit, changeBatch, type EditRefused, type NoSuchProject, type StockChanged } from './change-batch'

type NotPromised =
  | NotEnoughFree
  | NoSuchProject
  | { kind: 'not-open'; projectId: string; status: string }
  | { kind: 'other-owner'; batchId: string; projectId: string }
export type PromiseRefused = NotPromised | EditRefused

/**
 * Set a length of a batch aside for a project; it takes the place of what the project was promised of that batch before.
 *
 * @returns `not-open` for a project that is only wanted, finished or given up; `other-owner` when the goods are not its owner's: pass them
 *   on first
 * @throws {RangeError} if the length is not a positive whole number
 */
export function promiseStock(
  input: BatchEdit & { projectId: string; strandTenths: number },
): Promise<Result<StockChanged, PromiseRefused>> {
  return changeBatch<NotPromised>(input, async ({ tx, batch, promises }) => {
    const { projectId, strandTenths } = input
    const project = await tx.project.findFirst({
      where: { id: projectId, goneAt: null },
      select: { ownerId: true, status: true },
    })
    if (!project) return refused({ kind: 'no-such-project', projectId })
    if (!(openStatuses as readonly string[]).includes(project.status))
      return refused({ kind: 'not-open', projectId, status: project.status })
    if (project.ownerId !== batch.ownerId) return refused({ kind: 'other-owner', batchId: batch.id, projectId })
    const planned = planPromise(batch, { projectId, strandTenths }, promises)
    return planned.ok ? ok({ batches: [], movements: [], promises: [planned.value] }) : planned
  })
}
