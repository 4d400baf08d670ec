import 'server-only'
import {
  afterShopTick,
  boughtOf,
  isSameBought,
  packsOf,
  type ShopLine,
  type ShopLineStatus,
  type ShopListStatus,
  type ShopSaid,
  type ShopWanted,
} from '#lib/planning/buying/shop-list'
import { tickMoment } from '#lib/project/later-tick'
import { ok, type Result, refused } from '#lib/result'
import type { Transaction } from '../client'
import { readInParts } from '../walk/in-parts'
import { write } from '../write'
import type { Write } from '../write-gate'
import type { ListClosed, NoSuchList } from './buying-refusal'
import { type Home, readHomes, readUnsorted } from './home-of'
import { rememberPrice } from './remember-price'
import { type NotSettled, settleStock } from './settle-stock'

export type BuyTick = Omit<ShopSaid, 'status'> & {
  lineId: string
  status: ShopLineStatus
  tickedAt: Date
  by?: string | null
  /** Where it goes, by label, made when no place has it; null: to its home. */
  place?: string | null
  /** What was paid is from now on what its line is sold for there. */
  remembersPrice?: boolean
}

/** A line that stays as it was, and why: what was bought of it cannot be taken back out of stock, or the other thread is gone. */
export type HeldLine = { lineId: string; why: NotSettled }

export type BuyTicked = { written: number; unknownLineIds: string[]; held: HeldLine[] }

/** Each tick of a thread writes to the stock. */
const longestMs = 60_000
export const mostTicks = 200

/**
 * Write ticks down, each as far as it is later than what stands, and make the stock say the same: what is bought is received where the
 * thread lives, in the same write, and what is unticked is taken back as long as nothing was used of it. A tick sent twice, or from two
 * phones, receives once. Ticks of a list that was ended meanwhile still count, for the thread is bought; of a dropped one they do not.
 *
 * @param input.sentAt  what the ticker's clock said when they were sent, to put a clock right that is plainly wrong
 * @throws {RangeError} if there are over 200 ticks, or a number of put-ups is not a whole number from nought.
 */
export function tickBuyLines(input: {
  listId: string
  ticks: readonly BuyTick[]
  sentAt?: Date
}): Promise<Result<BuyTicked, NoSuchList | ListClosed | { kind: 'changed-meanwhile' }>> {
  const { listId, ticks, sentAt } = input
  const wrong = ticks.find(({ boughtPutUps: putUps }) => putUps !== null && !(Number.isSafeInteger(putUps) && putUps >= 0))
  if (wrong || ticks.length > mostTicks) throw new RangeError(`tickBuyLines: ${wrong?.boughtPutUps ?? ticks.length}`)
  return write<BuyTicked, NoSuchList | ListClosed | { kind: 'changed-meanwhile' }>(async (writing) => {
    const { tx, at, revision } = writing
    const list = await tx.buyList.findUnique({ where: { id: listId }, select: { status: true, title: true, ownerId: true } })
    if (!list) return refused({ kind: 'no-such-list', listId })
    if (list.status === 'dropped') return refused({ kind: 'list-closed', status: list.status as ShopListStatus })
    const rows = await readInParts([...new Set(ticks.map(({ lineId }) => lineId))], (ids) => readRows(tx, listId, ids))
    const byId = new Map(rows.map((row) => [row.id, row]))
    const now = new Map<string, { line: ShopLine; place: string | null; remembersPrice: boolean }>()
    const unknown = new Set<string>()
    for (const { lineId, tickedAt, by = null, place = null, remembersPrice = false, ...tick } of ticks) {
      const row = byId.get(lineId)
      if (!row) {
        unknown.add(lineId)
        continue
      }
      const before = now.get(lineId)?.line ?? row.line
      const tickedAtMs = tickMoment({ tickedAtMs: tickedAt.getTime(), sentAtMs: sentAt?.getTime() }, at.getTime())
      const line = afterShopTick(before, { ...tick, tickedAtMs, by })
      if (line !== before) now.set(lineId, { line, place, remembersPrice })
    }

    const homes = await homesFor(tx, list.ownerId, [...now.keys()], byId, now)
    const held: HeldLine[] = []
    for (const [lineId, { line, place, remembersPrice }] of now) {
      const row = byId.get(lineId) as Row
      const { tickedAtMs, ...said } = line
      const [was, is] = [
        row.batchId === null ? null : boughtOf({ ...row.line, ...row.wanted }),
        boughtOf({ ...said, ...row.wanted }),
      ]
      let stock: { batchId: string | null; carriedAt: Date | null } = { batchId: row.batchId, carriedAt: row.carriedAt }
      if (!isSameBought(was, is)) {
        const settled = await settleStock(writing, {
          ...{ was: was && { bought: was, batchId: row.batchId as string }, is, ownerId: list.ownerId },
          ...{ placeLabel: place, homePlaceId: is ? (homes.get(is.threadId)?.id ?? null) : null },
          ...{ reason: `by the list ${list.title}`, who: line.tickedBy },
        })
        if (!settled.ok) {
          if (settled.error === 'changed-meanwhile') return refused({ kind: settled.error })
          held.push({ lineId, why: settled.error })
          continue
        }
        stock = { batchId: settled.value, carriedAt: settled.value === null ? null : at }
      }
      await tx.buyListLine.update({
        where: { id: lineId },
        data: { ...said, tickedAt: new Date(tickedAtMs as number), revision, ...stock },
      })
      const { threadId, putUps, putUpWord, putUpStrandTenths } = row.wanted
      if (remembersPrice && line.status === 'bought' && line.paidMinor !== null && threadId !== null) {
        const { supplier, packPutUps } = row
        const packs = packsOf({ putUps: line.boughtPutUps ?? putUps, packPutUps })
        await rememberPrice(tx, {
          ...{ threadId, supplier, putUpWord, putUpStrandTenths, packPutUps, packs, paidMinor: line.paidMinor },
        })
      }
    }
    return ok({ written: now.size - held.length, unknownLineIds: [...unknown], held })
  }, longestMs)
}

type Row = {
  id: string
  line: ShopLine
  wanted: ShopWanted
  supplier: string | null
  packPutUps: number
  batchId: string | null
  carriedAt: Date | null
}

async function readRows(tx: Transaction, listId: string, ids: string[]): Promise<Row[]> {
  const rows = await tx.buyListLine.findMany({
    where: { id: { in: ids }, buyListId: listId },
    select: {
      ...{ id: true, threadId: true, putUpWord: true, putUpStrandTenths: true, putUps: true },
      ...{ status: true, boughtPutUps: true, lot: true, paidMinor: true, insteadThreadId: true, tickedAt: true, tickedBy: true },
      ...{ batchId: true, carriedAt: true, supplier: true, packPutUps: true },
    },
  })
  return rows.map(({ id, threadId, putUpWord, putUpStrandTenths, putUps, batchId, carriedAt, status, tickedAt, ...row }) => {
    const { supplier, packPutUps, ...said } = row
    return {
      ...{ id, batchId, carriedAt, supplier, packPutUps, wanted: { threadId, putUpWord, putUpStrandTenths, putUps } },
      line: { ...said, status: status as ShopLineStatus, tickedAtMs: tickedAt?.getTime() ?? null },
    }
  })
}

/** Where what these lines bring goes, by thread: its home, or where what has none goes. */
async function homesFor(
  tx: Write['tx'],
  ownerId: string,
  lineIds: readonly string[],
  byId: ReadonlyMap<string, Row>,
  now: ReadonlyMap<string, { line: ShopLine }>,
): Promise<Map<string, Home>> {
  const threadIds = lineIds.flatMap((id) => {
    const bought = boughtOf({ ...(now.get(id)?.line as ShopLine), ...(byId.get(id) as Row).wanted })
    return bought ? [bought.threadId] : []
  })
  if (threadIds.length === 0) return new Map()
  const homes = await readHomes(tx, threadIds, ownerId)
  if (threadIds.every((id) => homes.has(id))) return homes
  const unsorted = await readUnsorted(tx)
  return unsorted ? new Map(threadIds.map((id) => [id, homes.get(id) ?? unsorted])) : homes
}
