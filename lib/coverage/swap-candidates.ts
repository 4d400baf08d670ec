import type { ThreadList } from '#lib/chart/thread-list'
import { NearestColours } from '#lib/colour/nearest'
import { compareExact } from '#lib/stock/batch'
import { type SwapThread, usableDeltaE } from '#lib/thread/substitution'
import type { SwapCandidate, SwapNeed } from './assign-swaps'
import type { ThreadNeed } from './need'

/** Candidates shown of one thread: far more than anybody lays on the cloth at once. */
const mostNear = 40

/** The threads one may choose from, to be asked for the nearest to a colour. */
export class SwapPool {
  readonly #candidates: Map<string, SwapCandidate>
  readonly #colours: NearestColours

  constructor(candidates: readonly SwapCandidate[]) {
    this.#candidates = new Map(candidates.map((candidate) => [candidate.thread.threadId, candidate]))
    this.#colours = new NearestColours(
      candidates.flatMap(({ thread: { threadId, lab } }) => (lab ? [{ id: threadId, lab }] : [])),
    )
  }

  /**
   * What might stand in for a thread: those within the usable difference, the nearest first, then others asked for by id, which a list
   * or the chart itself names.
   *
   * @param also    by id, where the thread is in the pool
   * @param isLike  leaves out those that are not, of the near ones only
   */
  near(
    original: SwapThread,
    also: readonly string[] = [],
    isLike: (thread: SwapThread) => boolean = () => true,
  ): SwapCandidate[] {
    const isWanted = (threadId: string) => {
      const candidate = this.#candidates.get(threadId)
      return candidate !== undefined && threadId !== original.threadId && isLike(candidate.thread)
    }
    const near = original.lab
      ? this.#colours.nearest(original.lab, { count: mostNear, within: usableDeltaE, accepts: isWanted }).map(({ id }) => id)
      : []
    const named = also.filter((threadId) => threadId !== original.threadId && !near.includes(threadId)).sort(compareExact)
    return [...near, ...new Set(named)].flatMap((threadId) => this.#candidates.get(threadId) ?? [])
  }
}

/**
 * What the design's other thread lists work the same symbols in: the designer's own alternatives to a thread, for mixing lists line by
 * line. Only symbols that are one thread in both lists count; of a blend nobody can say which half answers to which.
 */
export function alternativesOf(threadId: string, list: ThreadList, lists: readonly ThreadList[]): string[] {
  const symbols = new Set(
    list.keyLines.flatMap(({ symbol, threads }) =>
      symbol !== null && threads.length === 1 && threads[0]?.threadId === threadId ? [symbol] : [],
    ),
  )
  const found = lists
    .filter((other) => other.id !== list.id)
    .flatMap((other) => other.keyLines)
    .flatMap(({ symbol, threads }) => (symbol !== null && symbols.has(symbol) && threads.length === 1 ? threads : []))
    .map((thread) => thread.threadId)
  return [...new Set(found)].filter((id) => id !== threadId).sort(compareExact)
}

/** A thread's need as a swap asks for it: its length, and the strands the most of it is worked with. */
export function swapNeedOf(need: ThreadNeed, list: ThreadList, quantity: number): SwapNeed {
  let strands = 0
  let most = -1
  for (const { keyLineId, strandTenths } of need.from) {
    const keyLine = list.keyLines.find(({ id }) => id === keyLineId)
    const used = keyLine?.threads.find(({ threadId }) => threadId === need.threadId)
    if (!used || strandTenths < most || (strandTenths === most && used.strands <= strands)) continue
    strands = used.strands
    most = strandTenths
  }
  return { strandTenths: need.strandTenths * quantity, strands: Math.max(1, strands) }
}
