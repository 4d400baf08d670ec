import 'server-only'
import { type BuyLine, planBuyList, type ThreadStock, type Want } from '#lib/coverage/buy-list'
import type { ThreadLine } from '#lib/thread/thread'
import type { Answers } from '../answers/answers'
import { database } from '../client'
import { readBatches } from '../stock/apply-stock-change'
import { type BoughtThread, byMakerAndCode, inParts, readBoughtThreads } from './bought-threads'
import { readToCome } from './queries'

export type BuyListRow = { line: BuyLine; thread: BoughtThread; standIn: BoughtThread | null }

/** What to buy for all of these together from these owners' stock, by maker and code; threads that are covered too. */
export async function readBuyList(answers: Answers, wants: readonly Want[], ownerIds: readonly string[]): Promise<BuyListRow[]> {
  const { prisma } = database()
  const { standIns, lines, lineOfThread } = answers.world
  const needed = [...new Set(wants.flatMap(({ needs }) => needs.map(({ threadId }) => threadId)))]
  const threadIds = [...new Set(needed.flatMap((threadId) => [threadId, ...(standIns.get(threadId) ?? [])]))]
  const [parts, toCome, threads] = await Promise.all([
    inParts(threadIds, async (ids) => [await readBatches(prisma, { threadId: { in: ids }, ownerId: { in: [...ownerIds] } })]),
    readToCome(ownerIds),
    inParts(threadIds, async (ids) => [...(await readBoughtThreads({ id: { in: ids } }))]),
  ])
  const stock = new Map<string, ThreadStock>()
  for (const { batches, promises } of parts) {
    for (const batch of batches) {
      const known = stock.get(batch.threadId)
      stock.set(batch.threadId, {
        batches: [...(known?.batches ?? []), batch],
        promises: [...(known?.promises ?? []), ...promises.filter(({ batchId }) => batchId === batch.id)],
      })
    }
  }
  const lineOf = new Map<string, ThreadLine>()
  for (const threadId of threadIds) {
    const line = lines.get(lineOfThread.get(threadId) ?? '')
    if (line) lineOf.set(threadId, line)
  }
  const threadOf = new Map(threads)
  return planBuyList({ wants, stock, toCome, lines: lineOf, standIns, ownerIds })
    .flatMap((line) => {
      const thread = threadOf.get(line.threadId)
      return thread ? [{ line, thread, standIn: threadOf.get(line.standInThreadId ?? '') ?? null }] : []
    })
    .sort((a, b) => byMakerAndCode(a.thread, b.thread))
}
