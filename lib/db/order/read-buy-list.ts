import 'server-only'
import { type BuyLine, planBuyList, type ThreadStock, type ToCome, type Want } from '#lib/coverage/buy-list'
import { type Offer, type PutUpMix, planMix } from '#lib/coverage/put-up-mix'
import type { ThreadLine } from '#lib/thread/thread'
import type { Answers } from '../answers/answers'
import { type Listed, readListed } from '../buying/queries'
import { database } from '../client'
import { readOffers } from '../offer/queries'
import { readBatches } from '../stock/apply-stock-change'
import { type BoughtThread, byMakerAndCode, inParts, readBoughtThreads } from './bought-threads'
import { readToCome } from './queries'

export type BuyListRow = {
  line: BuyLine
  thread: BoughtThread
  standIn: BoughtThread | null
  /** The cheapest way to have what is short; null when nothing is, or nothing that is sold serves. */
  mix: PutUpMix | null
  /** Every way it is sold, as its line says first. */
  offers: readonly Offer[]
  /** Lists somebody shops by that it is on. */
  listed: readonly Listed[]
}

/** All that a list of what to buy is reckoned from, but the wants. */
export type BuyWorld = {
  stock: Map<string, ThreadStock>
  toCome: Map<string, ToCome[]>
  listed: Map<string, Listed[]>
  lines: Map<string, ThreadLine>
  threads: Map<string, BoughtThread>
  offers: Map<string, Offer[]>
}

/** These owners' stock of these threads, what is to come of it, and how it is sold. */
export async function readBuyWorld(
  answers: Answers,
  threadIds: readonly string[],
  ownerIds: readonly string[],
): Promise<BuyWorld> {
  const { prisma } = database()
  const { lines, lineOfThread } = answers.world
  const [parts, onOrder, listed, found] = await Promise.all([
    inParts(threadIds, async (ids) => [await readBatches(prisma, { threadId: { in: ids }, ownerId: { in: [...ownerIds] } })]),
    readToCome(ownerIds),
    readListed(ownerIds),
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
  const threads = new Map(found)
  const toCome = new Map<string, ToCome[]>()
  for (const [threadId, some] of [...onOrder, ...listed]) toCome.set(threadId, [...(toCome.get(threadId) ?? []), ...some])
  return { stock, toCome, listed, lines: lineOf, threads, offers: await readOffers([...threads.values()]) }
}

/** The cheapest way to have what a line of the list is short of. */
export const mixFor = (line: BuyLine, world: Pick<BuyWorld, 'offers'>): PutUpMix | null =>
  line.putUps === 0
    ? null
    : planMix({
        shortStrandTenths: line.shortStrandTenths,
        isOneLot: line.sameLot !== null,
        cutStrandTenths: line.cutStrandTenths,
        ownPutUpStrandTenths: line.putUpStrandTenths,
        offers: world.offers.get(line.threadId) ?? [],
      })

/** What to buy for all of these together from these owners' stock, by maker and code; threads that are covered too. */
export async function readBuyList(answers: Answers, wants: readonly Want[], ownerIds: readonly string[]): Promise<BuyListRow[]> {
  const { standIns } = answers.world
  const needed = [...new Set(wants.flatMap(({ needs }) => needs.map(({ threadId }) => threadId)))]
  const threadIds = [...new Set(needed.flatMap((threadId) => [threadId, ...(standIns.get(threadId) ?? [])]))]
  const world = await readBuyWorld(answers, threadIds, ownerIds)
  const { stock, toCome, lines, threads } = world
  return planBuyList({ wants, stock, toCome, lines, standIns, ownerIds })
    .flatMap((line): BuyListRow[] => {
      const thread = threads.get(line.threadId)
      if (!thread) return []
      const standIn = threads.get(line.standInThreadId ?? '') ?? null
      const [offers, listed] = [world.offers.get(line.threadId) ?? [], world.listed.get(line.threadId) ?? []]
      return [{ line, thread, standIn, mix: mixFor(line, world), offers, listed }]
    })
    .sort((a, b) => byMakerAndCode(a.thread, b.thread))
}
