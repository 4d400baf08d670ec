import 'server-only'
import { compareExact } from '#lib/stock/batch'
import type { Transaction } from '../client'
import { readInParts } from '../walk/in-parts'

/** Where goods of a thread go: where most of the owner's whole put-ups of it live. */
export type Home = { id: string; label: string }

const key = 'unsortedPlace'

/** The place named for what has no home yet, as long as it is there; null while nobody named one. */
export async function readUnsorted(tx: Transaction): Promise<Home | null> {
  const row = await tx.setting.findUnique({ where: { key } })
  if (!row) return null
  const placeId: unknown = JSON.parse(row.valueJson)?.placeId
  return typeof placeId === 'string' ? tx.place.findFirst({ where: { id: placeId, goneAt: null }, select: homeColumns }) : null
}

/** Where all these threads go, by thread; one that nothing is held of is not in it. */
export async function readHomes(tx: Transaction, threadIds: readonly string[], ownerId: string): Promise<Map<string, Home>> {
  const batches = await readInParts([...new Set(threadIds)], (ids) =>
    tx.batch.findMany({
      where: {
        ...{ threadId: { in: ids }, ownerId, goneAt: null },
        homePlace: { goneAt: null, kind: { not: 'not found' } },
      },
      select: { threadId: true, wholePutUps: true, homePlace: { select: homeColumns } },
      orderBy: { id: 'asc' },
    }),
  )
  const putUpsAt = new Map<string, Map<string, Home & { putUps: number }>>()
  for (const { threadId, wholePutUps, homePlace } of batches) {
    if (!homePlace) continue
    const at = putUpsAt.get(threadId) ?? new Map<string, Home & { putUps: number }>()
    at.set(homePlace.id, { ...homePlace, putUps: (at.get(homePlace.id)?.putUps ?? 0) + wholePutUps })
    putUpsAt.set(threadId, at)
  }
  return new Map(
    [...putUpsAt].map(([threadId, at]) => {
      const [most] = [...at.values()].sort(
        (a, b) => b.putUps - a.putUps || compareExact(a.label, b.label) || compareExact(a.id, b.id),
      )
      const { id, label } = most as Home
      return [threadId, { id, label }]
    }),
  )
}

const homeColumns = { id: true, label: true } as const

export const unsortedKey = key
