import { type Certainty, weakestCertainty } from '#lib/quantity/certainty'
import { compareExact } from '#lib/stock/batch'
import type { FreeLot, FreeStock, HeldElsewhere } from '#lib/stock/free-stock'
import { putUpsFor } from '#lib/thread/put-ups'
import type { ThreadLine } from '#lib/thread/thread'
import type { ThreadNeed } from './need'

/** Worst to best. `mixed` and `enough` are ready to stitch. */
export const lineStatuses = ['none', 'short', 'lots', 'elsewhere', 'unknown', 'swap', 'mixed', 'enough'] as const
export type LineStatus = (typeof lineStatuses)[number]

export const statusRanks = Object.fromEntries(lineStatuses.map((status, rank) => [status, rank])) as Record<LineStatus, number>
export const isReadyRank = (rank: number): boolean => rank >= statusRanks.mixed

/** What a status is judged by: lengths of one thread, in tenths of a millimetre of one strand. */
export type ThreadFigures = {
  freeStrandTenths: number
  /** The most free in one lot, and in one marked lot (only a marked one can be matched in a shop). */
  bestLotStrandTenths: number
  bestMarkedLotStrandTenths: number
  ownedStrandTenths: number
  /** The most owned in one lot, free or not. */
  bestOwnedLotStrandTenths: number
  isSomeHeld: boolean
}

const noFigures: ThreadFigures = {
  freeStrandTenths: 0,
  bestLotStrandTenths: 0,
  bestMarkedLotStrandTenths: 0,
  ownedStrandTenths: 0,
  bestOwnedLotStrandTenths: 0,
  isSomeHeld: false,
}

/** The figures of a thread's free stock; all nought when none is held. */
export function figuresOf(free: FreeStock | null | undefined): ThreadFigures {
  if (!free) return noFigures
  const figures: ThreadFigures = {
    ...noFigures,
    freeStrandTenths: free.freeStrandTenths,
    ownedStrandTenths: free.ownedStrandTenths,
    isSomeHeld: free.isSomeHeld,
  }
  for (const lot of free.lots) {
    figures.bestLotStrandTenths = Math.max(figures.bestLotStrandTenths, lot.freeStrandTenths)
    figures.bestOwnedLotStrandTenths = Math.max(figures.bestOwnedLotStrandTenths, lot.ownedStrandTenths)
    if (lot.lot !== null) figures.bestMarkedLotStrandTenths = Math.max(figures.bestMarkedLotStrandTenths, lot.freeStrandTenths)
  }
  return figures
}

/**
 * The status of one need against one thread's stock, as a rank in `lineStatuses`, stand-ins left aside.
 *
 * Called for every line of every design, so it takes plain numbers, in strand tenths, rather than an object.
 */
export function rankStatus(
  need: number,
  free: number,
  bestLot: number,
  owned: number,
  bestOwnedLot: number,
  isSomeHeld: boolean,
  lotsMatter: boolean,
  putUp: number,
): number {
  if (bestLot >= need) return 7
  if (!lotsMatter && free >= need) return need <= putUp ? 7 : 6
  if (isSomeHeld) return 4
  if ((lotsMatter ? bestOwnedLot : owned) >= need) return 3
  if (lotsMatter && owned >= need) return 2
  return free > 0 ? 1 : 0
}

/**
 * Whole put-ups to buy for a line that is not ready. A line whose lots matter needs all from one lot: what is held counts only when
 * it is of a marked lot that can be asked for again, and not at all when the lots held are enough but do not match.
 */
export function putUpsToBuy(
  rank: number,
  need: number,
  free: number,
  bestMarkedLot: number,
  lotsMatter: boolean,
  putUp: number,
): number {
  if (isReadyRank(rank)) return 0
  if (!lotsMatter) return Math.ceil((need - free) / putUp)
  return Math.ceil((rank === statusRanks.lots ? need : need - bestMarkedLot) / putUp)
}

/** How one thread of a list is covered. Lengths in strand tenths. */
export type ThreadCover = {
  threadId: string
  status: LineStatus
  needStrandTenths: number
  leastStrandTenths: number
  /** Whole put-ups of the line's own length that hold the need. */
  needPutUps: number
  putUpStrandTenths: number
  ownedStrandTenths: number
  outStrandTenths: number
  promisedStrandTenths: number
  freeStrandTenths: number
  lots: FreeLot[]
  isSomeHeld: boolean
  elsewhere: HeldElsewhere[]
  /** Need less free, never below nought. */
  shortStrandTenths: number
  /** Whole put-ups that would make this line ready if nothing else does (no bringing back, no swap); 0 when it is ready. */
  shortPutUps: number
  /** Where lots matter: the lot to match, or null when a whole new lot is wanted; `wholePutUps` is all of the need in one new lot. */
  lotToBuy: { lot: string | null; putUps: number; wholePutUps: number } | null
  standInThreadId: string | null
  /** The weaker of the need's and the stock's. */
  certainty: Certainty
}

/**
 * The cover of one need by one thread's stock.
 *
 * @param standInThreadId  A thread already found to hold enough in its stead (see `assignStandIns`); null when there is none.
 */
export function coverThread(input: {
  need: ThreadNeed
  free: FreeStock | null
  line: Pick<ThreadLine, 'lotsMatter' | 'putUpStrandTenths'>
  standInThreadId: string | null
}): ThreadCover {
  const { need, free, standInThreadId } = input
  const { lotsMatter, putUpStrandTenths } = input.line
  const figures = figuresOf(free)
  const rank = rankOf(need.strandTenths, figures, input.line)
  const toBuy = putUpsToBuy(
    rank,
    need.strandTenths,
    figures.freeStrandTenths,
    figures.bestMarkedLotStrandTenths,
    lotsMatter,
    putUpStrandTenths,
  )
  const isReady = isReadyRank(rank)
  const wholePutUps = putUpsFor(need.strandTenths, putUpStrandTenths)
  const matched = rank === statusRanks.lots ? undefined : free?.lots.find((lot) => lot.lot !== null && lot.freeStrandTenths > 0)
  return {
    threadId: need.threadId,
    status: !isReady && standInThreadId !== null ? 'swap' : (lineStatuses[rank] as LineStatus),
    needStrandTenths: need.strandTenths,
    leastStrandTenths: need.leastStrandTenths,
    needPutUps: wholePutUps,
    putUpStrandTenths,
    ownedStrandTenths: figures.ownedStrandTenths,
    outStrandTenths: free?.outStrandTenths ?? 0,
    promisedStrandTenths: free?.promisedStrandTenths ?? 0,
    freeStrandTenths: figures.freeStrandTenths,
    lots: free?.lots ?? [],
    isSomeHeld: figures.isSomeHeld,
    elsewhere: free?.elsewhere ?? [],
    shortStrandTenths: Math.max(0, need.strandTenths - figures.freeStrandTenths),
    shortPutUps: toBuy,
    lotToBuy: lotsMatter && !isReady ? { lot: matched?.lot ?? null, putUps: toBuy, wholePutUps } : null,
    standInThreadId: isReady ? null : standInThreadId,
    certainty: weakestCertainty([need.certainty, ...(figures.freeStrandTenths > 0 && free ? [free.certainty] : [])]),
  }
}

/** `rankStatus` on a thread's figures. */
export const rankOf = (
  needStrandTenths: number,
  figures: ThreadFigures,
  line: Pick<ThreadLine, 'lotsMatter' | 'putUpStrandTenths'>,
): number =>
  rankStatus(
    needStrandTenths,
    figures.freeStrandTenths,
    figures.bestLotStrandTenths,
    figures.ownedStrandTenths,
    figures.bestOwnedLotStrandTenths,
    figures.isSomeHeld,
    line.lotsMatter,
    line.putUpStrandTenths,
  )

/**
 * Which accepted stand-in takes the place of each thread that is not ready, so that no stand-in is used beyond what it holds: its own
 * need in the list and all it stands in for are summed. Stand-ins that are not in the list, nor used already, come first, because
 * otherwise two symbols would be worked in one thread. Threads are served by id, so the order handed in makes no difference; a better
 * assignment may exist when several threads share a stand-in.
 *
 * @param wanted        Threads that are not ready, with their needs.
 * @param ownNeed       The list's own need of a thread; 0 when it is not in the list.
 * @param isReadyWith   Whether a thread's free stock covers a length.
 */
export function assignStandIns(input: {
  wanted: readonly { threadId: string; strandTenths: number }[]
  standInsOf: (threadId: string) => readonly string[]
  ownNeed: (threadId: string) => number
  isReadyWith: (threadId: string, strandTenths: number) => boolean
}): Map<string, string> {
  const assigned = new Map<string, string>()
  const taken = new Map<string, number>()
  for (const { threadId, strandTenths } of [...input.wanted].sort((a, b) => compareExact(a.threadId, b.threadId))) {
    const needOf = (id: string) => input.ownNeed(id) + (taken.get(id) ?? 0)
    const standIn = [...input.standInsOf(threadId)]
      .sort((a, b) => Number(needOf(a) > 0) - Number(needOf(b) > 0) || compareExact(a, b))
      .find((id) => id !== threadId && input.isReadyWith(id, needOf(id) + strandTenths))
    if (standIn === undefined) continue
    assigned.set(threadId, standIn)
    taken.set(standIn, (taken.get(standIn) ?? 0) + strandTenths)
  }
  return assigned
}
