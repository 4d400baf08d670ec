import 'server-only'
import { ok, type Result } from '#lib/result'
import { planRelease } from '#lib/stock/plan-promise'
import { write } from '../write'
import { applyStockChange, type ChangedMeanwhile, readBatches } from './apply-stock-change'

/** Free what a project was promised: all of it, or of one batch. Nothing to free is no error. */
export function releasePromises(input: {
  projectId: string
  batchId?: string
}): Promise<Result<{ releasedCount: number }, ChangedMeanwhile>> {
  return write<{ releasedCount: number }, ChangedMeanwhile>(async (writing) => {
    const { projectId, batchId } = input
    const { promises, versions } = await readBatches(writing.tx, {
      ...(batchId && { id: batchId }),
      promises: { some: { projectId } },
    })
    const released = planRelease(promises, projectId)
    const applied = await applyStockChange(writing, { batches: [], movements: [], promises: released }, { versions })
    return applied.ok ? ok({ releasedCount: released.length }) : applied
  })
}
