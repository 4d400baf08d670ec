import 'server-only'
import type { Offer } from '#lib/coverage/put-up-mix'
import { textKey } from '#lib/quantity/text-key'
import { compareExact } from '#lib/stock/batch'
import { compareCodes } from '#lib/thread/code-order'
import { database } from '../client'
import type { OfferFacts } from './save-offer'

export type OfferRow = OfferFacts & {
  offerId: string
  version: number
  thread: { id: string; code: string; name: string | null } | null
}

const offerColumns = {
  id: true,
  version: true,
  lineId: true,
  threadId: true,
  thread: { select: { id: true, code: true, name: true } },
  supplier: true,
  putUpWord: true,
  putUpStrandTenths: true,
  packPutUps: true,
  priceMinor: true,
  note: true,
} as const

/** How a line is sold: what holds for all of it first, then thread by thread; by shop, length and pack. */
export async function listOffers(lineId: string): Promise<OfferRow[]> {
  const rows = await database().prisma.threadOffer.findMany({ where: { lineId }, select: offerColumns })
  return rows
    .map(({ id, ...row }) => ({ ...row, offerId: id }))
    .sort(
      (a, b) =>
        Number(a.thread !== null) - Number(b.thread !== null) ||
        compareCodes(a.thread?.code ?? '', b.thread?.code ?? '') ||
        compareExact(textKey(a.supplier ?? ''), textKey(b.supplier ?? '')) ||
        a.putUpStrandTenths - b.putUpStrandTenths ||
        a.packPutUps - b.packPutUps ||
        compareExact(a.offerId, b.offerId),
    )
}

export async function findOffer(offerId: string): Promise<OfferRow | null> {
  const row = await database().prisma.threadOffer.findUnique({ where: { id: offerId }, select: offerColumns })
  if (!row) return null
  const { id, ...offer } = row
  return { ...offer, offerId: id }
}

/** Shops named on record so far, to offer while one types. */
export async function listSuppliers(): Promise<string[]> {
  const { prisma } = database()
  const [offers, orders, lines] = await Promise.all([
    prisma.threadOffer.findMany({ where: { supplier: { not: null } }, select: { supplier: true }, distinct: ['supplier'] }),
    prisma.threadOrder.findMany({ where: { supplier: { not: null } }, select: { supplier: true }, distinct: ['supplier'] }),
    prisma.buyListLine.findMany({ where: { supplier: { not: null } }, select: { supplier: true }, distinct: ['supplier'] }),
  ])
  return [...new Set([...offers, ...orders, ...lines].flatMap(({ supplier }) => supplier ?? []))].sort((a, b) =>
    compareExact(textKey(a), textKey(b)),
  )
}

/** The line a thread is of, with what its put-up is and costs. */
export type SoldThread = {
  id: string
  priceMinor: number | null
  line: { id: string; putUpStrandTenths: number }
}

/**
 * Every way these threads are sold: as their line says, then what is on record of the line and of the thread itself. What is said of a
 * thread stands before the same of its whole line.
 */
export async function readOffers(threads: readonly SoldThread[]): Promise<Map<string, Offer[]>> {
  if (threads.length === 0) return new Map()
  // A collection has some hundreds of them at most, and a list may have more threads than a statement takes parameters.
  const rows = await database().prisma.threadOffer.findMany({ select: offerColumns, orderBy: { id: 'asc' } })
  const ofLine = new Map<string, typeof rows>()
  for (const row of rows) ofLine.set(row.lineId, [...(ofLine.get(row.lineId) ?? []), row])
  return new Map(
    threads.map(({ id, priceMinor, line }) => {
      const own: Offer = {
        ...{ offerId: null, supplier: null, putUpWord: null, putUpStrandTenths: line.putUpStrandTenths },
        ...{ packPutUps: 1, priceMinor },
      }
      const soldAs = (row: {
        supplier: string | null
        putUpStrandTenths: number
        packPutUps: number
        putUpWord: string | null
      }) => JSON.stringify([textKey(row.supplier ?? ''), row.putUpStrandTenths, row.packPutUps, textKey(row.putUpWord ?? '')])
      const ways = new Map<string, Offer>([[soldAs(own), own]])
      const these = ofLine.get(line.id) ?? []
      const inOrder = [...these.filter(({ threadId }) => threadId === null), ...these.filter(({ threadId }) => threadId === id)]
      for (const row of inOrder) {
        const { supplier, putUpWord, putUpStrandTenths, packPutUps } = row
        ways.set(soldAs(row), {
          ...{ offerId: row.id, supplier, putUpWord, putUpStrandTenths, packPutUps, priceMinor: row.priceMinor },
        })
      }
      return [id, [...ways.values()]]
    }),
  )
}
