import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { type NotEnoughFree, planPromise } from '#lib/stock/movements'
import { type BatchEdit, changeBatch, type EditRefused, hasProject, type NoSuchProject, type StockChanged } from './change-batch'

export type PromiseRefused = NotEnoughFree | NoSuchProject | EditRefused

/**
 * Set a length of a batch aside for a project; it takes the place of what the project was promised of that batch before.
 *
 * @throws {RangeError} if the length is not a positive whole number
 */
export function promiseStock(
  input: BatchEdit & { projectId: string; strandTenths: number },
): Promise<Result<StockChanged, PromiseRefused>> {
  return changeBatch<NotEnoughFree | NoSuchProject>(input, async ({ tx, batch, promises }) => {
    const { projectId, strandTenths } = input
    if (!(await hasProject(tx, projectId))) return refused({ kind: 'no-such-project', projectId })
    const planned = planPromise(batch, { projectId, strandTenths }, promises)
    return planned.ok ? ok({ batches: [], movements: [], promises: [planned.value] }) : planned
  })
}
