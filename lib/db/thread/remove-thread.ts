import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { beyondSight } from '../sight/sighted-client'
import { write } from '../write'
import type { ThreadRefusal } from './thread-refusal'

/** Remove a thread nobody holds and no key names. Batches that are used up go with it; its history stays. */
export function removeThread(input: { threadId: string; version: number }): Promise<Result<null, ThreadRefusal>> {
  return write<null, ThreadRefusal>(async ({ tx: seen, at, touch }) => {
    // Whoever holds it.
    const tx = beyondSight(seen)
    const { threadId, version } = input
    const batches = await tx.batch.findMany({
      where: { threadId, goneAt: null },
      select: { id: true, wholePutUps: true, partCertainty: true, _count: { select: { promises: true } } },
    })
    const heldBatchCount = batches.filter(
      (batch) => batch.wholePutUps > 0 || batch.partCertainty !== 'none' || batch._count.promises > 0,
    ).length
    const designCount = await tx.design.count({
      where: { threadLists: { some: { keyLines: { some: { threads: { some: { threadId } } } } } } },
    })
    if (heldBatchCount + designCount > 0) return refused({ kind: 'thread-in-use', heldBatchCount, designCount })
    const claimed = await tx.thread.updateMany({
      where: { id: threadId, version, goneAt: null },
      data: { goneAt: at, version: { increment: 1 } },
    })
    if (claimed.count === 0) return refused({ kind: 'changed-meanwhile' })
    await tx.batch.updateMany({ where: { threadId, goneAt: null }, data: { goneAt: at, version: { increment: 1 } } })
    for (const batch of batches) touch('batch', batch.id)
    touch('thread', threadId)
    return ok(null)
  })
}
