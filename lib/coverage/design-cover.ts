import type { KeyLine, ThreadList } from '#lib/chart/thread-list'
import { compareExact } from '#lib/stock/batch'
import type { FreeStock } from '#lib/stock/free-stock'
import type { ThreadLine } from '#lib/thread/thread'
import {
  assignStandIns,
  coverThread,
  figuresOf,
  isReadyRank,
  type LineStatus,
  lineStatuses,
  rankOf,
  statusRanks,
  type ThreadCover,
} from './line-status'
import type { ThreadNeed } from './need'

/** A list's answer in figures; the same from `coverDesign` and from the engine. */
export type ListAnswer = {
  /** The worst of its threads; at best `unknown` for a list without threads or known to lack some. */
  status: LineStatus
  threadCount: number
  /** `enough` and `mixed`. */
  readyCount: number
  swapCount: number
  elsewhereCount: number
  unknownCount: number
  lotsCount: number
  /** `short` and `none`. */
  shortCount: number
  /** Whole put-ups to buy for the short ones; and for those whose lots do not match, all of their need in one lot. */
  shortPutUps: number
  lotPutUps: number
  isIncomplete: boolean
  isStitchable: boolean
  isStitchableWithSwaps: boolean
}

/** How a thread list is covered. */
export type DesignCover = ListAnswer & {
  /** In the order of the key. */
  threads: ThreadCover[]
  /** To buy for the short ones, in the order of the key. */
  toBuy: { threadId: string; putUps: number }[]
}

/**
 * Coverage of one thread list.
 *
 * @param free       Free stock by thread; a thread left out is not held.
 * @param lines      The line of every thread needed, and of every stand-in.
 * @param standIns   Accepted stand-ins by thread; never chained.
 * @throws {RangeError} if a line is missing.
 */
export function coverDesign(input: {
  needs: readonly ThreadNeed[]
  free: ReadonlyMap<string, FreeStock>
  lines: ReadonlyMap<string, Pick<ThreadLine, 'lotsMatter' | 'putUpStrandTenths'>>
  standIns: ReadonlyMap<string, readonly string[]>
  isIncomplete?: boolean
}): DesignCover {
  const { needs, free, isIncomplete = false } = input
  const lineOf = (threadId: string) => {
    const line = input.lines.get(threadId)
    if (!line) throw new RangeError(`coverDesign: no line for thread ${threadId}`)
    return line
  }
  const needByThread = new Map(needs.map((need) => [need.threadId, need.strandTenths]))
  const isReadyWith = (threadId: string, strandTenths: number) =>
    isReadyRank(rankOf(strandTenths, figuresOf(free.get(threadId)), lineOf(threadId)))
  const assigned = assignStandIns({
    wanted: needs.filter((need) => !isReadyWith(need.threadId, need.strandTenths)),
    standInsOf: (threadId) => input.standIns.get(threadId) ?? [],
    ownNeed: (threadId) => needByThread.get(threadId) ?? 0,
    isReadyWith,
  })
  const threads = needs.map((need) =>
    coverThread({
      need,
      free: free.get(need.threadId) ?? null,
      line: lineOf(need.threadId),
      standInThreadId: assigned.get(need.threadId) ?? null,
    }),
  )
  const tally = (...statuses: LineStatus[]) => threads.filter((thread) => statuses.includes(thread.status))
  const putUpsOf = (some: ThreadCover[]) => some.reduce((sum, thread) => sum + thread.shortPutUps, 0)
  const short = tally('none', 'short')
  const readyCount = tally('enough', 'mixed').length
  const swapCount = tally('swap').length
  const best = threads.length === 0 || isIncomplete ? statusRanks.unknown : lineStatuses.length - 1
  const worst = threads.reduce((rank, thread) => Math.min(rank, statusRanks[thread.status]), best)
  return {
    status: lineStatuses[worst] as LineStatus,
    threadCount: threads.length,
    readyCount,
    swapCount,
    elsewhereCount: tally('elsewhere').length,
    unknownCount: tally('unknown').length,
    lotsCount: tally('lots').length,
    shortCount: short.length,
    shortPutUps: putUpsOf(short),
    lotPutUps: putUpsOf(tally('lots')),
    isIncomplete,
    isStitchable: !isIncomplete && threads.length > 0 && readyCount === threads.length,
    isStitchableWithSwaps: !isIncomplete && threads.length > 0 && readyCount + swapCount === threads.length,
    threads,
    toBuy: short.map(({ threadId, shortPutUps }) => ({ threadId, putUps: shortPutUps })),
  }
}

/** Nearest to stitching first: stitchable, stitchable with swaps, fewest put-ups to buy, fewest threads not ready, better status. */
export function compareAnswers(a: ListAnswer, b: ListAnswer): number {
  return (
    Number(b.isStitchable) - Number(a.isStitchable) ||
    Number(b.isStitchableWithSwaps) - Number(a.isStitchableWithSwaps) ||
    a.shortPutUps + a.lotPutUps - (b.shortPutUps + b.lotPutUps) ||
    a.threadCount - a.readyCount - (b.threadCount - b.readyCount) ||
    statusRanks[b.status] - statusRanks[a.status]
  )
}

export type ListComparison = {
  listId: string
  name: string
  cover: DesignCover
  /** Symbols of the key that stand for crosses, and how many different threads or blends they are worked in. */
  symbolCount: number
  colourCount: number
  /** Symbols that fall together with another: three pairs sharing a thread make 3. */
  mergedCount: number
}

const outlines = new Set(['backstitch', 'backstitchDiagonal', 'doubleRunning', 'knotOneWrap', 'knotTwoWrap', 'bead'])

/** Outlines and knots share the colours of the crosses as a matter of course; only symbols that fill squares can be confused. */
function isFilling(line: KeyLine): boolean {
  if (line.symbol === null) return false
  const tallied = Object.entries(line.tally ?? {}).filter(([, tally]) => tally > 0)
  return tallied.length === 0 || tallied.some(([stitch]) => !outlines.has(stitch))
}

/** The alternatives of one design side by side, the nearest to stitching first; ties by colours kept, then by id. */
export function compareThreadLists(lists: readonly { list: ThreadList; cover: DesignCover }[]): ListComparison[] {
  return lists
    .map(({ list, cover }) => {
      const filling = list.keyLines.filter(isFilling)
      const symbols = new Map<string, Set<string>>()
      for (const line of filling) {
        const colour = line.threads
          .map((thread) => JSON.stringify([thread.threadId, line.threads.length > 1 ? thread.strands : 0]))
          .sort()
          .join(' ')
        symbols.set(colour, (symbols.get(colour) ?? new Set()).add(line.symbol as string))
      }
      const symbolCount = [...symbols.values()].reduce((sum, set) => sum + set.size, 0)
      const mergedCount = symbolCount - symbols.size
      return { listId: list.id, name: list.name, cover, symbolCount, colourCount: symbols.size, mergedCount }
    })
    .sort((a, b) => compareAnswers(a.cover, b.cover) || a.mergedCount - b.mergedCount || compareExact(a.listId, b.listId))
}
