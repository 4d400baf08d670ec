import 'server-only'
import type { ToCome } from '#lib/coverage/buy-list'
import {
  type ShopLineStatus,
  type ShopListStatus,
  type ShopProgress,
  type ShopSums,
  shopProgress,
  shopSums,
} from '#lib/planning/buying/shop-list'
import { compareExact } from '#lib/stock/batch'
import { database } from '../client'
import { type BoughtThread, byMakerAndCode, inParts, readBoughtThreads } from '../order/bought-threads'
import { readRevision } from '../read-revision'
import { type Home, readHomes, readUnsorted } from './home-of'

export type ListFacts = {
  id: string
  title: string
  ownerId: string
  ownerName: string
  status: ShopListStatus
  startedAt: Date
  startedBy: string | null
  closedAt: Date | null
  closedBy: string | null
  note: string | null
  version: number
}

export type ListedList = ListFacts & { progress: ShopProgress }

const listColumns = {
  ...{ id: true, title: true, ownerId: true, status: true, startedAt: true, startedBy: true },
  ...{ closedAt: true, closedBy: true, note: true, version: true, owner: { select: { name: true } } },
} as const

type ListRow = Omit<ListFacts, 'ownerName' | 'status'> & { status: string; owner: { name: string } }

const factsOf = ({ owner, status, ...list }: ListRow): ListFacts => ({
  ...list,
  ...{ ownerName: owner.name, status: status as ShopListStatus },
})

/** Lists of these owners: all that are open, the newest first; or a page of those that are over, the last closed first. */
export async function listBuyLists(
  filter: { ownerIds: readonly string[]; isOpen: boolean },
  page: { offset: number; limit: number },
): Promise<{ lists: ListedList[]; total: number }> {
  const { prisma } = database()
  const where = {
    ownerId: { in: [...filter.ownerIds] },
    status: filter.isOpen ? 'open' : { not: 'open' },
  }
  const [total, rows] = await Promise.all([
    prisma.buyList.count({ where }),
    prisma.buyList.findMany({
      ...{ where, select: listColumns, skip: page.offset, take: page.limit },
      orderBy: filter.isOpen ? [{ startedAt: 'desc' }, { id: 'desc' }] : [{ closedAt: 'desc' }, { id: 'desc' }],
    }),
  ])
  const counts = await inParts(
    rows.map(({ id }) => id),
    (ids) =>
      prisma.buyListLine.groupBy({ by: ['buyListId', 'status'], where: { buyListId: { in: ids } }, _count: { _all: true } }),
  )
  return {
    total,
    lists: rows.map((row) => {
      const own = counts.filter(({ buyListId }) => buyListId === row.id)
      const lines = own.flatMap(({ status, _count }) =>
        Array.from({ length: _count._all }, () => ({ status: status as ShopLineStatus })),
      )
      return { ...factsOf(row), progress: shopProgress(lines) }
    }),
  }
}

export type ShownLine = {
  id: string
  position: number
  thread: BoughtThread | null
  text: string | null
  putUpWord: string | null
  putUpStrandTenths: number
  putUps: number
  packPutUps: number
  isOneLot: boolean
  matchLot: string | null
  supplier: string | null
  /** Of one pack. */
  priceMinor: number | null
  status: ShopLineStatus
  boughtPutUps: number | null
  lot: string | null
  paidMinor: number | null
  instead: BoughtThread | null
  tickedAt: Date | null
  tickedBy: string | null
  /** In stock by this line. */
  isCarried: boolean
  /** Where it lies once it is bought; before that where it would go, null when nobody knows. */
  home: Home | null
  note: string | null
}

export type ListDetail = {
  list: ListFacts
  wantedFor: { designId: string; title: string; projectId: string | null; listName: string | null }[]
  /** Threads by maker, line and code, then what is in words, as put down. */
  lines: ShownLine[]
  progress: ShopProgress
  sums: ShopSums
  /** Where what has no home goes; null while nobody said. */
  unsorted: Home | null
  /** Ask for what is new since this. */
  revision: number
}

const lineColumns = {
  ...{ id: true, position: true, threadId: true, text: true, putUpWord: true, putUpStrandTenths: true, putUps: true },
  ...{ packPutUps: true, isOneLot: true, matchLot: true, supplier: true, priceMinor: true, status: true, boughtPutUps: true },
  ...{ lot: true, paidMinor: true, insteadThreadId: true, tickedAt: true, tickedBy: true, carriedAt: true, batchId: true },
  note: true,
} as const

/** A list with all its lines; null when there is none. */
export async function findBuyList(listId: string): Promise<ListDetail | null> {
  const { prisma } = database()
  // Read first: what is written while the rest is read is then told again, never left out.
  const revision = await readRevision()
  const row = await prisma.buyList.findUnique({ where: { id: listId }, select: listColumns })
  if (!row) return null
  const [lines, wantedFor, unsorted] = await Promise.all([
    prisma.buyListLine.findMany({ where: { buyListId: listId }, select: lineColumns, orderBy: { position: 'asc' } }),
    prisma.buyListFor.findMany({
      where: { buyListId: listId },
      select: { designId: true, projectId: true, listName: true, design: { select: { title: true } } },
      orderBy: { position: 'asc' },
    }),
    readUnsorted(prisma),
  ])
  const threadIds = [...new Set(lines.flatMap(({ threadId, insteadThreadId }) => [threadId ?? [], insteadThreadId ?? []].flat()))]
  const [threads, homes, batches] = await Promise.all([
    inParts(threadIds, async (ids) => [...(await readBoughtThreads({ id: { in: ids } }))]).then((found) => new Map(found)),
    readHomes(prisma, threadIds, row.ownerId),
    inParts(
      lines.flatMap(({ batchId }) => batchId ?? []),
      (ids) =>
        prisma.batch.findMany({
          where: { id: { in: ids } },
          select: { id: true, homePlace: { select: { id: true, label: true } } },
        }),
    ),
  ])
  const homeOfBatch = new Map(batches.map(({ id, homePlace }) => [id, homePlace]))
  const shown = lines.map(({ threadId, insteadThreadId, carriedAt, batchId, status, ...line }): ShownLine => {
    const thread = threads.get(threadId ?? '') ?? null
    return {
      ...line,
      ...{ thread, status: status as ShopLineStatus, instead: threads.get(insteadThreadId ?? '') ?? null },
      isCarried: carriedAt !== null,
      home: batchId !== null ? (homeOfBatch.get(batchId) ?? null) : thread ? (homes.get(thread.id) ?? unsorted) : null,
    }
  })
  shown.sort((a, b) => {
    if (a.thread && b.thread) return byMakerAndCode(a.thread, b.thread) || a.position - b.position
    return Number(a.thread === null) - Number(b.thread === null) || a.position - b.position
  })
  return {
    ...{ list: factsOf(row), lines: shown, progress: shopProgress(shown), sums: shopSums(shown), unsorted, revision },
    wantedFor: wantedFor.map(({ design, ...one }) => ({ ...one, title: design.title })),
  }
}

/** What somebody said of a line since. */
export type LineNews = Pick<
  ShownLine,
  'id' | 'status' | 'boughtPutUps' | 'lot' | 'paidMinor' | 'tickedAt' | 'tickedBy' | 'isCarried'
> & { insteadThreadId: string | null; place: string | null }

export type BuyListNews = {
  /** Ask for what is new since this next. */
  revision: number
  status: ShopListStatus
  /** Another one than before: lines came or went, so read the list again. */
  version: number
  lines: LineNews[]
}

/** What was ticked since a revision of the collection; null when there is no such list. */
export async function readBuyListNews(listId: string, since: number): Promise<BuyListNews | null> {
  const { prisma } = database()
  const revision = await readRevision()
  const list = await prisma.buyList.findUnique({ where: { id: listId }, select: { status: true, version: true } })
  if (!list) return null
  const rows = await prisma.buyListLine.findMany({
    where: { buyListId: listId, revision: { gt: since } },
    select: {
      ...{ id: true, status: true, boughtPutUps: true, lot: true, paidMinor: true, insteadThreadId: true },
      ...{ tickedAt: true, tickedBy: true, carriedAt: true, batchId: true },
    },
    orderBy: { position: 'asc' },
  })
  const homes = await inParts(
    rows.flatMap(({ batchId }) => batchId ?? []),
    (ids) => prisma.batch.findMany({ where: { id: { in: ids } }, select: { id: true, homePlace: { select: { label: true } } } }),
  )
  const labelOf = new Map(homes.map(({ id, homePlace }) => [id, homePlace?.label ?? null]))
  return {
    ...{ revision, version: list.version, status: list.status as ShopListStatus },
    lines: rows.map(({ carriedAt, batchId, status, ...line }) => ({
      ...line,
      ...{ status: status as ShopLineStatus, isCarried: carriedAt !== null, place: labelOf.get(batchId ?? '') ?? null },
    })),
  }
}

/** An open line of an open list, as what it may bring. */
export type Listed = ToCome & { threadId: string; listId: string; title: string }

/** What these owners mean to buy by lists they shop by, by thread; what is bought is in stock already, and what is not there is not coming. */
export async function readListed(ownerIds: readonly string[]): Promise<Map<string, Listed[]>> {
  const lines = await database().prisma.buyListLine.findMany({
    where: { status: 'open', threadId: { not: null }, buyList: { status: 'open', ownerId: { in: [...ownerIds] } } },
    select: {
      ...{ id: true, threadId: true, putUpStrandTenths: true, putUps: true, matchLot: true },
      buyList: { select: { id: true, title: true } },
    },
  })
  const byThread = new Map<string, Listed[]>()
  for (const { id, threadId, matchLot, buyList, ...line } of lines.sort((a, b) => compareExact(a.id, b.id))) {
    const listed: Listed = {
      ...{ ...line, orderId: id, lot: matchLot, isOnList: true },
      ...{ threadId: threadId as string, listId: buyList.id, title: buyList.title },
    }
    byThread.set(listed.threadId, [...(byThread.get(listed.threadId) ?? []), listed])
  }
  return byThread
}
