import 'server-only'
import type { PartCertainty } from '#lib/stock/batch'
import { database } from '../client'
import { type ThreadTag, threadTagColumns, threadTagOf } from '../thread/thread-tag'
import { chunks } from './read-bulk-edit'

export type NamedThread = ThreadTag & { lineName: string }

export type NamedBatch = {
  id: string
  lot: string | null
  wholePutUps: number
  partStrandTenths: number
  partCertainty: PartCertainty
  ownerName: string
  currentLabel: string | null
}

/** What the ids of a change's lines are called. What is gone keeps its name. */
export type LineNames = {
  threads: Map<string, NamedThread>
  batches: Map<string, NamedBatch>
  /** Labels of places, by id. */
  places: Map<string, string>
  owners: Map<string, string>
}

export async function nameLines(lines: readonly { threadId: string; batchId: string | null }[]): Promise<LineNames> {
  const { prisma } = database()
  const [places, owners] = await Promise.all([
    prisma.place.findMany({ select: { id: true, label: true } }),
    prisma.owner.findMany({ select: { id: true, name: true } }),
  ])
  const names: LineNames = {
    threads: new Map(),
    batches: new Map(),
    places: new Map(places.map(({ id, label }) => [id, label])),
    owners: new Map(owners.map(({ id, name }) => [id, name])),
  }
  for (const ids of chunks([...new Set(lines.map(({ threadId }) => threadId))])) {
    const rows = await prisma.thread.findMany({
      where: { id: { in: ids } },
      select: { ...threadTagColumns, line: { select: { ...threadTagColumns.line.select, name: true } } },
    })
    for (const row of rows) names.threads.set(row.id, { ...threadTagOf(row), lineName: row.line.name })
  }
  for (const ids of chunks(lines.flatMap(({ batchId }) => batchId ?? []))) {
    const rows = await prisma.batch.findMany({
      where: { id: { in: ids } },
      select: {
        id: true,
        lot: true,
        wholePutUps: true,
        partStrandTenths: true,
        partCertainty: true,
        ownerId: true,
        currentPlaceId: true,
      },
    })
    for (const { ownerId, currentPlaceId, partCertainty, ...batch } of rows) {
      names.batches.set(batch.id, {
        ...batch,
        partCertainty: partCertainty as PartCertainty,
        ownerName: names.owners.get(ownerId) ?? '',
        currentLabel: names.places.get(currentPlaceId ?? '') ?? null,
      })
    }
  }
  return names
}

/** How many different threads would live in a place once these live there too, and how many it is said to hold. */
export async function countHomed(
  placeId: string,
  threadIds: readonly string[],
): Promise<{ threads: number; capacity: number | null }> {
  const { prisma } = database()
  const [place, rows] = await Promise.all([
    prisma.place.findUnique({ where: { id: placeId }, select: { capacity: true } }),
    prisma.batch.findMany({
      where: { homePlaceId: placeId, goneAt: null },
      distinct: ['threadId'],
      select: { threadId: true },
    }),
  ])
  return {
    threads: new Set([...rows.map(({ threadId }) => threadId), ...threadIds]).size,
    capacity: place?.capacity ?? null,
  }
}
