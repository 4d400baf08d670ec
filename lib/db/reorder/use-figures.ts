import 'server-only'
import { type AbcStanding, classifyUse, valueOfUse } from '#lib/stock/abc'
import type { MovementKind } from '#lib/stock/stock-change'
import { salesWeeks, type UseMovement, type WeeklySales, weeklySales } from '#lib/stock/weekly-sales'
import { database } from '../client'

const dayMs = 24 * 60 * 60 * 1_000
const daysOfYear = 365

/**
 * ABC classes of what these owners used in the year up to `now`, by thread: the length of every use at the price of its line's put-up.
 * Batches are read apart from their movements, so that no query has more parameters than SQLite takes.
 */
export async function readClasses(asked: { ownerIds: readonly string[]; now: Date }): Promise<Map<string, AbcStanding>> {
  const { prisma } = database()
  const since = new Date(asked.now.getTime() - daysOfYear * dayMs)
  const isUse = { kind: 'use', at: { gte: since, lte: asked.now } }
  const ownerId = { in: [...asked.ownerIds] }
  const [sums, batches, threads, lines] = await Promise.all([
    prisma.movement.groupBy({
      by: ['batchId'],
      where: { ...isUse, batch: { ownerId } },
      _sum: { wholeDelta: true, partDeltaStrandTenths: true },
    }),
    prisma.batch.findMany({
      where: { ownerId, movements: { some: isUse } },
      select: { id: true, threadId: true, putUpStrandTenths: true },
    }),
    prisma.thread.findMany({
      where: { batches: { some: { ownerId, movements: { some: isUse } } } },
      select: { id: true, lineId: true },
    }),
    prisma.threadLine.findMany({ select: { id: true, putUpStrandTenths: true, priceMinor: true } }),
  ])
  const sumOf = new Map(sums.map((sum) => [sum.batchId, sum._sum]))
  const used = new Map<string, number>()
  for (const { id, threadId, putUpStrandTenths } of batches) {
    const sum = sumOf.get(id)
    const strandTenths = -((sum?.wholeDelta ?? 0) * putUpStrandTenths + (sum?.partDeltaStrandTenths ?? 0))
    used.set(threadId, (used.get(threadId) ?? 0) + strandTenths)
  }
  const lineById = new Map(lines.map((line) => [line.id, line]))
  const lineOf = new Map(threads.map(({ id, lineId }) => [id, lineById.get(lineId)]))
  return classifyUse(
    [...used].map(([threadId, strandTenths]) => {
      const line = lineOf.get(threadId)
      const valueMinor = line?.priceMinor == null ? null : valueOfUse(strandTenths, line.putUpStrandTenths, line.priceMinor)
      return { threadId, strandTenths, valueMinor }
    }),
  )
}

/** An owner's counter sales of one thread by the week, over the last half year; null when there are too few to go by. */
export async function readWeeklySales(asked: {
  threadId: string
  ownerId: string
  putUpStrandTenths: number
  now: Date
}): Promise<WeeklySales | null> {
  const { prisma } = database()
  const { threadId, ownerId, putUpStrandTenths, now } = asked
  const ofThread = { batch: { threadId, ownerId } }
  const since = new Date(now.getTime() - salesWeeks * 7 * dayMs)
  const [first, rows, batches] = await Promise.all([
    prisma.movement.findFirst({ where: ofThread, select: { at: true }, orderBy: [{ at: 'asc' }, { id: 'asc' }] }),
    prisma.movement.findMany({
      where: { ...ofThread, kind: { in: ['use', 'correct'] }, at: { gte: since, lte: now } },
      select: {
        at: true,
        kind: true,
        batchId: true,
        wholeDelta: true,
        partDeltaStrandTenths: true,
        projectId: true,
        reason: true,
      },
    }),
    prisma.batch.findMany({ where: { threadId, ownerId }, select: { id: true, putUpStrandTenths: true } }),
  ])
  const putUpOf = new Map(batches.map((batch) => [batch.id, batch.putUpStrandTenths]))
  const movements = rows.map(
    ({ at, kind, batchId, wholeDelta, partDeltaStrandTenths, projectId, reason }): UseMovement => ({
      at,
      kind: kind as MovementKind,
      strandTenths: wholeDelta * (putUpOf.get(batchId ?? '') ?? 0) + partDeltaStrandTenths,
      projectId,
      reason,
    }),
  )
  return weeklySales({ movements, putUpStrandTenths, until: now, heldSince: first?.at ?? null })
}
