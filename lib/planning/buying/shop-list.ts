import { standsOver } from '#lib/project/later-tick'

/** dropped: given up; what was bought by then stays so. */
export const shopListStatuses = ['open', 'done', 'dropped'] as const
export type ShopListStatus = (typeof shopListStatuses)[number]

/** instead: another thread was bought for it. */
export const shopLineStatuses = ['open', 'bought', 'not there', 'instead'] as const
export type ShopLineStatus = (typeof shopLineStatuses)[number]

/** What somebody said of a line in the shop; which of the figures there are follows from the status. */
export type ShopSaid = {
  status: ShopLineStatus
  /** Put-ups bought; null: as many as the list says. */
  boughtPutUps: number | null
  lot: string | null
  /** For all of it. */
  paidMinor: number | null
  insteadThreadId: string | null
}

/** Times in milliseconds of one clock; null while nobody said anything. */
export type ShopLine = ShopSaid & { tickedAtMs: number | null; tickedBy: string | null }
export type ShopTick = ShopSaid & { tickedAtMs: number; by: string | null }

const weight: Record<ShopLineStatus, number> = { open: 0, 'not there': 1, bought: 2, instead: 3 }

const nothingBought = { boughtPutUps: null, lot: null, paidMinor: null, insteadThreadId: null }

/** What is said, without figures that its status does not have. */
function said({ status, boughtPutUps, lot, paidMinor, insteadThreadId }: ShopSaid): ShopSaid {
  if (status === 'open' || status === 'not there') return { status, ...nothingBought }
  return { status, boughtPutUps, lot, paidMinor, insteadThreadId: status === 'instead' ? insteadThreadId : null }
}

/**
 * A line after a tick: the later tick stands, whole, with its figures, in whatever order ticks come (see `standsOver`). One that comes
 * twice changes nothing.
 */
export function afterShopTick(line: ShopLine, tick: ShopTick): ShopLine {
  const stands = { tickedAtMs: line.tickedAtMs, weight: weight[line.status], by: line.tickedBy }
  if (standsOver(stands, { tickedAtMs: tick.tickedAtMs, weight: weight[tick.status], by: tick.by })) return line
  return { ...said(tick), tickedAtMs: tick.tickedAtMs, tickedBy: tick.by }
}

/** What a line asks for, as the list was made. Lengths in tenths of a millimetre of one strand. */
export type ShopWanted = {
  /** Null: no thread, only words. */
  threadId: string | null
  putUpWord: string | null
  putUpStrandTenths: number
  putUps: number
}

/** Stock that came of a line. */
export type Bought = {
  threadId: string
  putUps: number
  /** Null: as the thread's line has them, as nobody said what the other thread comes in. */
  putUpWord: string | null
  putUpStrandTenths: number | null
  lot: string | null
}

/** What is in stock by a line as it is said to be: nothing of what is no thread, and nothing of none. */
export function boughtOf(line: ShopSaid & ShopWanted): Bought | null {
  const putUps = line.boughtPutUps ?? line.putUps
  if (putUps === 0) return null
  if (line.status === 'bought' && line.threadId !== null) {
    const { threadId, putUpWord, putUpStrandTenths, lot } = line
    return { threadId, putUps, putUpWord, putUpStrandTenths, lot }
  }
  if (line.status === 'instead' && line.insteadThreadId !== null)
    return { threadId: line.insteadThreadId, putUps, putUpWord: null, putUpStrandTenths: null, lot: line.lot }
  return null
}

export const isSameBought = (a: Bought | null, b: Bought | null): boolean => JSON.stringify(a) === JSON.stringify(b)

/** Packs that hold so many put-ups; only whole packs are sold. */
export const packsOf = ({ putUps, packPutUps }: { putUps: number; packPutUps: number }): number => Math.ceil(putUps / packPutUps)

export type ShopProgress = { lines: number; bought: number; notThere: number }

/** How far a list has come: "5 of 9, 1 not there". */
export const shopProgress = (lines: readonly { status: ShopLineStatus }[]): ShopProgress => ({
  lines: lines.length,
  bought: lines.filter(({ status }) => status === 'bought' || status === 'instead').length,
  notThere: lines.filter(({ status }) => status === 'not there').length,
})

/** What a list was expected to cost and what was paid, as far as either is known. */
export type ShopSums = {
  expectedMinor: number
  /** Lines with nothing said of their price. */
  unpriced: number
  paidMinor: number
  /** Bought, with nothing said of what was paid. */
  unpaid: number
}

export function shopSums(
  lines: readonly (Pick<ShopSaid, 'status' | 'paidMinor'> & { putUps: number; packPutUps: number; priceMinor: number | null })[],
): ShopSums {
  const sums: ShopSums = { expectedMinor: 0, unpriced: 0, paidMinor: 0, unpaid: 0 }
  for (const line of lines) {
    if (line.priceMinor === null) sums.unpriced += 1
    else sums.expectedMinor += line.priceMinor * packsOf(line)
    if (line.status !== 'bought' && line.status !== 'instead') continue
    if (line.paidMinor === null) sums.unpaid += 1
    else sums.paidMinor += line.paidMinor
  }
  return sums
}
