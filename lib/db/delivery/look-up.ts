import 'server-only'
import { placePath } from '#lib/place/place-tree'
import { compareExact } from '#lib/stock/batch'
import { looksLikeBarcode } from '#lib/thread/barcode'
import { getAnswers } from '../answers/get-answers'
import { database } from '../client'
import { findBarcodeThreadId } from '../thread/barcodes'
import { findThreadNamed, listThreadsCalled, type ThreadNamed } from '../thread/find-thread'

/** What a delivery wants to know of a thread: where it goes, in what put-ups it has come before, and whether it is on order. */
export type DeliveryThread = ThreadNamed & {
  /** Homes of this owner's batches, the one with most put-ups first. */
  homes: { id: string; label: string; pathText: string; putUps: number }[]
  /** Kinds of put-up, the line's own first. `word` null: as the line says. */
  putUps: { word: string | null; strandTenths: number }[]
  /** Lots held, by their text. */
  lots: string[]
  /** Open orders of this owner, the oldest first. */
  orders: { id: string; putUps: number; receivedPutUps: number; lot: string | null; orderedOn: string; supplier: string | null }[]
  /** Whole put-ups this owner holds, out ones too. */
  heldPutUps: number
}

export type LookUp = {
  how: 'barcode' | 'code' | 'name' | 'none'
  /** Likely read from bars: found or not, no code of thread is this long. */
  isBarcode: boolean
  threads: DeliveryThread[]
}

/** More than this are not to be chosen from on a phone. */
const mostFound = 8

/**
 * The threads a scanned or typed text means: by remembered bars, by exact code in the line one is at, by exact code anywhere (with maker or
 * line before it or not), at last by name. The first of these that finds any answers.
 *
 * @param asked.lineId  the line of the thread before, or null
 */
export async function lookUpForDelivery(asked: { text: string; lineId: string | null; ownerId: string }): Promise<LookUp> {
  const text = asked.text.trim()
  const isBarcode = looksLikeBarcode(text)
  const found = async (how: LookUp['how'], threads: ThreadNamed[]): Promise<LookUp> => ({
    how,
    isBarcode,
    threads: await withStock(threads.slice(0, mostFound), asked.ownerId),
  })
  if (text === '') return found('none', [])
  const byBars = await findBarcodeThreadId(text)
  const scanned = byBars === null ? null : await findThreadNamed(byBars)
  if (scanned) return found('barcode', [scanned])

  const called = await listThreadsCalled(text)
  const inLine = called.filter(({ line, code }) => line.id === asked.lineId && code === text)
  if (inLine.length > 0) return found('code', inLine)
  if (called.length > 0) return found('code', called)

  const { search } = await getAnswers()
  const hits = search.search(text, { limit: 40 }).hits.filter(({ noun }) => noun === 'thread')
  const named = await Promise.all(hits.slice(0, mostFound).map(({ id }) => findThreadNamed(id.slice('thread:'.length))))
  const threads = named.filter((thread) => thread !== null)
  return found(threads.length > 0 ? 'name' : 'none', threads)
}

/** Threads with what their owner's drawers say of them. */
async function withStock(threads: readonly ThreadNamed[], ownerId: string): Promise<DeliveryThread[]> {
  if (threads.length === 0) return []
  const { prisma } = database()
  const these = { threadId: { in: threads.map(({ id }) => id) }, ownerId }
  const [batches, orders, { world }] = await Promise.all([
    prisma.batch.findMany({
      where: { ...these, goneAt: null },
      select: { threadId: true, lot: true, putUpWord: true, putUpStrandTenths: true, wholePutUps: true, homePlaceId: true },
      orderBy: { id: 'asc' },
    }),
    prisma.threadOrder.findMany({
      where: { ...these, closedAt: null },
      select: {
        id: true,
        threadId: true,
        putUps: true,
        receivedPutUps: true,
        lot: true,
        orderedOn: true,
        supplier: true,
      },
      orderBy: [{ orderedOn: 'asc' }, { id: 'asc' }],
    }),
    getAnswers(),
  ])
  return threads.map((thread) => {
    const own = batches.filter(({ threadId }) => threadId === thread.id)
    const putUpsAt = new Map<string, number>()
    for (const { homePlaceId, wholePutUps } of own)
      if (homePlaceId !== null) putUpsAt.set(homePlaceId, (putUpsAt.get(homePlaceId) ?? 0) + wholePutUps)
    const homes = [...putUpsAt].flatMap(([placeId, putUps]) => {
      const place = world.places.get(placeId)
      if (!place) return []
      const path = placePath(place, world.places)
      return [{ id: place.id, label: place.label, pathText: path.map(({ label }) => label).join(' › '), putUps }]
    })
    const kinds = new Map([
      [`null ${thread.line.putUpStrandTenths}`, { word: null, strandTenths: thread.line.putUpStrandTenths }],
    ])
    for (const { putUpWord: word, putUpStrandTenths: strandTenths } of own)
      kinds.set(`${word} ${strandTenths}`, { word: word as null, strandTenths })
    return {
      ...thread,
      homes: homes.sort((a, b) => b.putUps - a.putUps || compareExact(a.label, b.label) || compareExact(a.id, b.id)),
      putUps: [...kinds.values()] as DeliveryThread['putUps'],
      lots: [...new Set(own.flatMap(({ lot }) => lot ?? []))].sort(compareExact),
      orders: orders.filter(({ threadId }) => threadId === thread.id).map(({ threadId: _threadId, ...order }) => order),
      heldPutUps: own.reduce((sum, { wholePutUps }) => sum + wholePutUps, 0),
    }
  })
}
