import 'server-only'
import { compareCodes } from '#lib/thread/code-order'
import type { Answers } from '../answers/answers'
import { database } from '../client'
import { type BoughtThread, readBoughtThreads } from '../order/bought-threads'
import { readToCome } from '../order/queries'

export type MissingThread = { thread: BoughtThread; designCount: number; onOrderPutUps: number }

/** Which threads on record of a line these owners hold none of, in the order of a drawer, and how many designs name each. */
export async function readMissing(
  answers: Answers,
  asked: { lineId: string; ownerIds: readonly string[] },
): Promise<{ missing: MissingThread[]; threadCount: number }> {
  const { lineId, ownerIds } = asked
  const [threads, batches, toCome] = await Promise.all([
    readBoughtThreads({ lineId, goneAt: null }),
    database().prisma.batch.findMany({
      where: {
        goneAt: null,
        ownerId: { in: [...ownerIds] },
        thread: { lineId },
        OR: [{ wholePutUps: { gt: 0 } }, { partCertainty: { not: 'none' } }],
      },
      select: { threadId: true },
    }),
    readToCome(ownerIds),
  ])
  const held = new Set(batches.map(({ threadId }) => threadId))
  const engine = answers.coverage(ownerIds)
  const missing = [...threads.values()]
    .filter(({ id }) => !held.has(id))
    .sort((a, b) => compareCodes(a.code, b.code))
    .map((thread) => ({
      thread,
      designCount: engine.designsUsing(thread.id).length,
      onOrderPutUps: (toCome.get(thread.id) ?? []).reduce((sum, { putUps }) => sum + putUps, 0),
    }))
  return { missing, threadCount: threads.size }
}
