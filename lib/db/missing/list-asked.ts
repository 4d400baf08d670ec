import 'server-only'
import { database } from '../client'

/** Thread that is being looked for. */
export type AskedThread = {
  missingId: string
  batchId: string
  threadId: string
  wholePutUps: number
  lastSeen: { id: string; label: string } | null
}

const askedAtMost = 500

/** Open questions about these threads, and about what lives inside this place; asked longest ago first. */
export async function listAsked(about: { threadIds: readonly string[]; homePath: string | null }): Promise<AskedThread[]> {
  const { threadIds, homePath } = about
  const rows = await database().prisma.missingThing.findMany({
    where: {
      status: 'open',
      batch: {
        OR: [
          { threadId: { in: [...new Set(threadIds)].slice(0, askedAtMost) } },
          ...(homePath === null ? [] : [{ homePlace: { path: { startsWith: homePath } } }]),
        ],
      },
    },
    select: {
      id: true,
      batch: { select: { id: true, threadId: true, wholePutUps: true } },
      lastSeenPlace: { select: { id: true, label: true } },
    },
    orderBy: [{ askedAt: 'asc' }, { id: 'asc' }],
    take: askedAtMost,
  })
  return rows.flatMap(({ id, batch, lastSeenPlace }) =>
    batch
      ? [{ missingId: id, batchId: batch.id, threadId: batch.threadId, wholePutUps: batch.wholePutUps, lastSeen: lastSeenPlace }]
      : [],
  )
}
