import 'server-only'
import { compareExact } from '#lib/stock/batch'
import { findRunOut, type RunOut } from '#lib/stock/run-out'
import type { MovementKind } from '#lib/stock/stock-change'
import { database } from '../client'
import type { Prisma } from '../generated/sqlite/client'
import { type BoughtThread, readBoughtThreads } from '../order/bought-threads'
import { readToCome } from '../order/queries'

export type RunOutRow = { thread: BoughtThread; runOut: RunOut; onOrderPutUps: number }

/** Threads whose stock, all of these owners' together, came to nothing between two moments; the latest first. */
export async function readRunOuts(asked: { ownerIds: readonly string[]; since: Date; before: Date }): Promise<RunOutRow[]> {
  const { prisma } = database()
  const ownerIds = [...asked.ownerIds]
  const isLoss = {
    at: { gte: asked.since, lt: asked.before },
    OR: [{ wholeDelta: { lt: 0 } }, { partDeltaStrandTenths: { lt: 0 } }, { kind: 'transfer', fromOwnerId: { in: ownerIds } }],
  } satisfies Prisma.MovementWhereInput
  const thread = { goneAt: null, batches: { some: { movements: { some: isLoss } } } } satisfies Prisma.ThreadWhereInput
  const [threads, batches, movements, toCome] = await Promise.all([
    readBoughtThreads(thread),
    prisma.batch.findMany({
      where: { thread },
      select: { id: true, threadId: true, ownerId: true, wholePutUps: true, partStrandTenths: true, partCertainty: true },
    }),
    prisma.movement.findMany({
      where: { at: { gte: asked.since }, batch: { thread } },
      select: {
        batchId: true,
        revision: true,
        at: true,
        kind: true,
        wholeDelta: true,
        partDeltaStrandTenths: true,
        fromOwnerId: true,
        toOwnerId: true,
      },
    }),
    readToCome(ownerIds),
  ])
  const threadOf = new Map(batches.map(({ id, threadId }) => [id, threadId]))
  const movementsOf = new Map<string, (typeof movements)[number][]>()
  for (const movement of movements) {
    const threadId = threadOf.get(movement.batchId ?? '') ?? ''
    const known = movementsOf.get(threadId)
    if (known) known.push(movement)
    else movementsOf.set(threadId, [movement])
  }
  const batchesOf = new Map<string, (typeof batches)[number][]>()
  for (const batch of batches) {
    const known = batchesOf.get(batch.threadId)
    if (known) known.push(batch)
    else batchesOf.set(batch.threadId, [batch])
  }
  return [...threads.values()]
    .flatMap((one): RunOutRow[] => {
      const runOut = findRunOut({
        batches: (batchesOf.get(one.id) ?? []).map(({ partCertainty, ...batch }) => ({
          ...batch,
          isSomeHeld: partCertainty === 'some',
        })),
        movements: (movementsOf.get(one.id) ?? []).map(({ batchId, kind, ...movement }) => ({
          ...movement,
          batchId: batchId as string,
          kind: kind as MovementKind,
        })),
        ownerIds,
        before: asked.before,
      })
      if (!runOut) return []
      const onOrderPutUps = (toCome.get(one.id) ?? []).reduce((sum, { putUps }) => sum + putUps, 0)
      return [{ thread: one, runOut, onOrderPutUps }]
    })
    .sort((a, b) => b.runOut.revision - a.runOut.revision || compareExact(a.thread.id, b.thread.id))
}
