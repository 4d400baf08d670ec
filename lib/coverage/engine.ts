import { type AnswerColumns, readiness } from '#lib/chart/catalogue'
import { compareExact } from '#lib/stock/batch'
import type { FreeStock } from '#lib/stock/free-stock'
import {
  type AnswerWords,
  bareBit,
  buyPutUpsAt,
  copyRow,
  isSameRow,
  missingAt,
  mostCounted,
  rankAt,
  stepOfRank,
  wordsFor,
} from './answer-words'
import { compareAnswers, type ListAnswer } from './design-cover'
import {
  assignStandIns,
  figuresOf,
  isReadyRank,
  type LineStatus,
  lineStatuses,
  putUpsToBuy,
  rankStatus,
  statusRanks,
  type ThreadFigures,
} from './line-status'
import { type ListNeeds, mostNeed } from './need-columns'
import { type NeedIndex, NeedIndexBuilder } from './need-index'

/** A thread, what its line says of it, and its accepted stand-ins (which need be known only when they are judged). */
export type EngineThread = {
  threadId: string
  lotsMatter: boolean
  putUpStrandTenths: number
  standInThreadIds: readonly string[]
}

/** A thread's free stock, or only the figures it comes to. */
export type EngineStock = FreeStock | ({ threadId: string } & ThreadFigures)

export type EngineListAnswer = ListAnswer & { listId: string }

/** The answers of a design's lists, the best first. */
export type EngineDesignAnswer = { designId: string; best: EngineListAnswer; lists: EngineListAnswer[] }

/** What a supposed change of stock would do to a design; put-ups to buy are of its best list. */
export type WhatIf = { designId: string; before: DesignState; after: DesignState }
export type DesignState = { status: LineStatus; isStitchable: boolean; isStitchableWithSwaps: boolean; buyPutUps: number }

/**
 * A thread's stock as five runs of needs, from small to large: enough · enough in mixed lots · elsewhere (or unknown) · lots that do
 * not match · short. The last need of each of the first four is kept; within a run every need has the same status, and what is to be
 * bought is ⌈(need − held) ÷ put-up⌉, held being nought where lots do not match and nothing being bought before.
 */
const runCount = 5
const readinessOfRank = lineStatuses.map((_, rank) =>
  isReadyRank(rank) ? readiness.now : rank === statusRanks.swap ? readiness.withSwaps : readiness.no,
)
const [mixedRun, elsewhereRun, lotsRun, shortRun] = [1, 2, 3, 4] as const

/** From so many changed threads on, when they are a quarter of all: going through everything is then the quicker. */
const fewestManyThreads = 64

/**
 * Coverage of every thread list from one set of owners' stock, kept up to date.
 *
 * All answers are worked out thread by thread: a thread's postings lie by need, so what its stock covers ends at one place, found by
 * halving, and only the lists beyond it are written to. A change of stock writes only to lists whose need lies between the old and
 * the new ends or beyond them. Lists that hang on stand-ins are worked out one by one, since one stand-in may be wanted twice.
 * The class is long because it is one algorithm over columns of its own, and each of them is read and written in one place.
 *
 * All figures are whole, so an engine kept up to date and one made anew say exactly the same, and the order of the input makes no
 * difference.
 */
export class CoverageEngine {
  readonly #index: NeedIndex
  #packing: number
  #words: AnswerWords = wordsFor(0)
  #figures: ThreadFigures[] = []
  /** Per thread: the last needs of the first four runs, as far as there are such. */
  #ends = new Float64Array(0)
  /** Per thread: what counts as held where short, and one put-up. */
  #held = new Float64Array(0)
  #putUp = new Float64Array(0)
  #isSomeHeld = new Uint8Array(0)
  #lotsMatter = new Uint8Array(0)
  #standIns = new Map<number, readonly string[]>()
  #standsInFor = new Map<string, Set<number>>()

  /**
   * @throws {RangeError} if a list uses a thread that is not among `threads`, stock is of no known thread, or a list comes twice.
   */
  constructor(world: { index: NeedIndex; threads: Iterable<EngineThread>; stock: Iterable<EngineStock> }) {
    this.#index = world.index
    this.#packing = world.index.packing
    for (const thread of world.threads) this.#putThread(thread)
    for (let thread = 0; thread < this.#index.threadIds.length; thread++) {
      if ((this.#putUp[thread] ?? 0) === 0) throw new RangeError(`CoverageEngine: no thread ${this.#index.threadIds[thread]}`)
    }
    for (const free of world.stock) this.#putStock(this.#index.getThread(free.threadId), free)
    this.answerAll()
  }

  /** An engine with an index of its own. */
  static of(world: {
    lists: Iterable<ListNeeds>
    threads: readonly EngineThread[]
    stock: Iterable<EngineStock>
  }): CoverageEngine {
    const builder = new NeedIndexBuilder(world.threads.map(({ threadId }) => threadId))
    for (const list of world.lists) builder.add(list)
    return new CoverageEngine({ index: builder.finish(), threads: world.threads, stock: world.stock })
  }

  get index(): NeedIndex {
    return this.#index
  }

  /** Take over a thread's free stock (null: none is held). */
  setThreadStock(threadId: string, free: EngineStock | null): void {
    this.#changeStock([[this.#index.getThread(threadId), free]])
  }

  /** Take over the free stock of several threads at once. */
  setStock(stock: Iterable<EngineStock>): void {
    this.#changeStock(Array.from(stock, (free) => [this.#index.getThread(free.threadId), free]))
  }

  /** Add a thread, or take over its line's changed rules or its changed stand-ins. */
  setThread(thread: EngineThread): void {
    const known = this.#index.findThread(thread.threadId)
    const affected = known === null ? [] : this.#rowsTouchedBy(known)
    const at = this.#putThread(thread)
    this.#catchUp()
    this.#answerRows([...affected, ...this.#rowsTouchedBy(at)])
  }

  /** Answer a design's lists again after the index took over a change of them. */
  refreshDesign(designId: string): void {
    if (this.#catchUp()) return
    for (const row of this.#index.rowsOf(designId)) this.#answerRow(row)
    const row = this.#index.answerRowOf(designId)
    if (row >= 0 && this.#index.isBestRow(row)) this.#chooseBestFrom(this.#index.nextRowOf(row), row)
  }

  /** Add a list, or replace the one of the same id, where the index is this engine's alone. */
  setList(list: ListNeeds): void {
    this.#index.setList(list)
    this.refreshDesign(list.designId)
  }

  /** Take a list out, where the index is this engine's alone. */
  removeList(designId: string, listId: string): void {
    this.#index.removeList(designId, listId)
    this.refreshDesign(designId)
  }

  /** @returns null for a design without lists. */
  answerFor(designId: string): EngineDesignAnswer | null {
    const rows = this.#index.rowsOf(designId)
    if (rows.length === 0) return null
    const lists = rows.map((row) => this.#listAnswer(row)).sort(byBest)
    return { designId, best: lists[0] as EngineListAnswer, lists }
  }

  /** The ids of the designs that use a thread, in no particular order. */
  designsUsing(threadId: string): string[] {
    const designs = new Set<string>()
    this.#index.eachUser(this.#index.getThread(threadId), (row) => designs.add(this.#index.designAt(row)))
    return [...designs]
  }

  /** Every row's answer; read at once. */
  get words(): AnswerWords {
    this.#catchUp()
    return this.#words
  }

  /** The best answer of every design. */
  get designs(): AnswerColumns {
    const { words } = this
    return {
      layout: this.#index.layout,
      rowOf: (designId) => this.#index.answerRowOf(designId),
      rankAt: (row) => rankAt(words, row),
      buyPutUpsAt: (row) => buyPutUpsAt(words, row),
      readinessOfRank,
    }
  }

  /**
   * What would change if stock were otherwise. Nothing is kept: afterwards every answer is as it was.
   *
   * @param stock  Supposed free stock of the threads it would differ for.
   * @returns      The designs whose answer would change, by id.
   */
  whatIf(stock: Iterable<FreeStock>): WhatIf[] {
    this.#catchUp()
    const before: AnswerWords = { worse: this.#words.worse.slice(), better: this.#words.better.slice() }
    const changes = Array.from(stock, (free): [number, FreeStock | null] => [this.#index.getThread(free.threadId), free])
    const figures = changes.map(([thread]): [number, ThreadFigures] => [thread, this.#figures[thread] as ThreadFigures])
    this.#changeStock(changes)
    const after = this.#words
    const changed: WhatIf[] = []
    for (let row = 0; row < this.#index.rowCount; row++) {
      if (isSameRow(before, after, row)) continue
      const designId = this.#index.designAt(row)
      if (this.#index.answerRowOf(designId) !== row) continue
      changed.push({ designId, before: stateOf(before, row), after: stateOf(after, row) })
    }
    this.#words = before
    for (const [thread, known] of figures) this.#putFigures(thread, known)
    return changed.sort((a, b) => compareExact(a.designId, b.designId))
  }

  /** Work every answer out anew. */
  answerAll(): void {
    const index = this.#index
    this.#packing = index.packing
    const { listIds, postOffsets, postRow, postNeed } = index.packed
    const baseRows = listIds.length
    this.#makeRoom()
    const words = this.#words
    words.worse.fill(0)
    words.better.fill(0)
    index.eachBareRow((row) => {
      words.better[row] = bareBit
    })
    const threadCount = postOffsets.length - 1
    for (let thread = 0; thread < threadCount; thread++) {
      let start = this.#findEnd(thread, 0)
      const last = postOffsets[thread + 1] as number
      for (let run = mixedRun as number; run < runCount && start < last; run++) {
        const end = run === shortRun ? last : this.#findEnd(thread, run)
        if (end > start) this.#count(words, postRow, postNeed, { start, end, run, thread })
        start = end
      }
    }
    for (let row = baseRows; row < index.rowCount; row++) if (index.listAt(row) !== null) this.#answerRow(row)
    if (this.#standIns.size > 0) {
      const rows = new Set<number>()
      for (const thread of this.#standIns.keys()) {
        if (thread >= threadCount) continue
        const end = postOffsets[thread + 1] as number
        for (let i = this.#findEnd(thread, mixedRun); i < end; i++) rows.add(postRow[i] as number)
      }
      for (const row of rows) this.#answerRow(row)
    }
    for (let row = baseRows; row < index.rowCount; row++)
      if (index.isBestRow(row)) this.#chooseBestFrom(index.nextRowOf(row), row)
  }

  /** One run of one thread's postings: each list has one more thread of its status, and what is to be bought of it. */
  #count(
    { worse, better }: AnswerWords,
    postRow: Int32Array,
    postNeed: Uint32Array,
    { start, end, run, thread }: { start: number; end: number; run: number; thread: number },
  ): void {
    const rank = this.#rankOfRun(thread, run)
    const step = stepOfRank(rank)
    if (rank >= statusRanks.unknown) {
      for (let i = start; i < end; i++) {
        const row = postRow[i] as number
        better[row] = ((better[row] as number) + step) | 0
      }
      return
    }
    const held = run === lotsRun ? 0 : (this.#held[thread] as number)
    const putUp = this.#putUp[thread] as number
    // Needs rise, so that the same number of put-ups serves a stretch of them.
    for (let from = start; from < end; ) {
      const putUps = run < lotsRun ? 0 : Math.ceil(((postNeed[from] as number) - held) / putUp)
      const until = run < lotsRun ? end : firstBeyond(postNeed, from, end, held + putUps * putUp)
      for (let i = from; i < until; i++) {
        const at = (postRow[i] as number) << 1
        worse[at] = ((worse[at] as number) + putUps) | 0
        worse[at + 1] = ((worse[at + 1] as number) + step) | 0
      }
      from = until
    }
  }

  /** The first posting of a thread beyond a run's end. */
  #findEnd(thread: number, run: number): number {
    const { postOffsets, postNeed } = this.#index.packed
    const end = this.#ends[thread * 4 + run] as number
    let low = postOffsets[thread] as number
    let high = postOffsets[thread + 1] as number
    while (low < high) {
      const middle = (low + high) >>> 1
      if ((postNeed[middle] as number) <= end) low = middle + 1
      else high = middle
    }
    return low
  }

  #rankOfRun(thread: number, run: number): number {
    if (run === mixedRun) return statusRanks.mixed
    if (run === elsewhereRun) return this.#isSomeHeld[thread] === 1 ? statusRanks.unknown : statusRanks.elsewhere
    if (run === lotsRun) return statusRanks.lots
    return (this.#figures[thread] as ThreadFigures).freeStrandTenths > 0 ? statusRanks.short : statusRanks.none
  }

  #putThread({ threadId, lotsMatter, putUpStrandTenths, standInThreadIds }: EngineThread): number {
    if (!Number.isSafeInteger(putUpStrandTenths) || putUpStrandTenths < 1) {
      throw new RangeError(`CoverageEngine: put-up ${putUpStrandTenths} of thread ${threadId}`)
    }
    const thread = this.#index.addThread(threadId)
    const length = Math.max(this.#index.threadIds.length, thread + 1)
    if (this.#putUp.length < length) {
      const room = Math.ceil(length * 1.25) + 16
      this.#ends = copied(this.#ends, new Float64Array(room * 4))
      this.#held = copied(this.#held, new Float64Array(room))
      this.#putUp = copied(this.#putUp, new Float64Array(room))
      this.#isSomeHeld = copied(this.#isSomeHeld, new Uint8Array(room))
      this.#lotsMatter = copied(this.#lotsMatter, new Uint8Array(room))
    }
    this.#putUp[thread] = putUpStrandTenths
    this.#lotsMatter[thread] = Number(lotsMatter)
    this.#putFigures(thread, this.#figures[thread] ?? figuresOf(null))
    for (const id of this.#standIns.get(thread) ?? []) this.#standsInFor.get(id)?.delete(thread)
    if (standInThreadIds.length > 0) this.#standIns.set(thread, [...standInThreadIds])
    else this.#standIns.delete(thread)
    for (const id of standInThreadIds) {
      const served = this.#standsInFor.get(id)
      if (served) served.add(thread)
      else this.#standsInFor.set(id, new Set([thread]))
    }
    return thread
  }

  #putStock(thread: number, free: EngineStock | null): void {
    this.#putFigures(thread, figuresFrom(free))
  }

  /** Where each run ends; the same boundaries as `rankStatus` has. */
  #putFigures(thread: number, figures: ThreadFigures): void {
    const { freeStrandTenths: free, ownedStrandTenths: owned, bestLotStrandTenths: bestLot } = figures
    const lotsMatter = this.#lotsMatter[thread] === 1
    const ready = lotsMatter ? bestLot : free
    const enough = lotsMatter ? bestLot : Math.max(bestLot, Math.min(free, this.#putUp[thread] as number))
    const elsewhere = figures.isSomeHeld
      ? Number.POSITIVE_INFINITY
      : Math.max(ready, lotsMatter ? figures.bestOwnedLotStrandTenths : owned)
    this.#figures[thread] = figures
    this.#isSomeHeld[thread] = Number(figures.isSomeHeld)
    this.#held[thread] = lotsMatter ? figures.bestMarkedLotStrandTenths : free
    const at = thread * 4
    this.#ends[at] = enough
    this.#ends[at + mixedRun] = ready
    this.#ends[at + elsewhereRun] = elsewhere
    this.#ends[at + lotsRun] = lotsMatter ? Math.max(elsewhere, owned) : elsewhere
  }

  /** Only when rows were numbered anew, or there are more of them. @returns whether everything was answered. */
  #catchUp(): boolean {
    if (this.#packing !== this.#index.packing) {
      this.answerAll()
      return true
    }
    this.#makeRoom()
    return false
  }

  #makeRoom(): void {
    const { rowCount } = this.#index
    if (this.#words.better.length >= rowCount) return
    const known = this.#words.better.length
    const larger = wordsFor(known === 0 ? rowCount : Math.ceil(rowCount * 1.1) + 64)
    larger.worse.set(this.#words.worse)
    larger.better.set(this.#words.better)
    this.#words = larger
  }

  #changeStock(changes: readonly (readonly [number, EngineStock | null])[]): void {
    this.#catchUp()
    if (changes.length > fewestManyThreads && changes.length > this.#index.threadIds.length / 4) {
      for (const [thread, free] of changes) this.#putStock(thread, free)
      this.answerAll()
      return
    }
    const again = new Set<number>()
    for (const [thread, free] of changes) {
      const hangsOnSwaps =
        this.#standIns.has(thread) || (this.#standsInFor.get(this.#index.threadIds[thread] as string)?.size ?? 0) > 0
      if (hangsOnSwaps) {
        for (const row of this.#rowsTouchedBy(thread)) again.add(row)
        this.#putStock(thread, free)
      } else {
        this.#changeOne(thread, figuresFrom(free))
        for (const row of this.#index.lateRowsOf(thread)) again.add(row)
      }
    }
    this.#answerRows(again)
  }

  /** The lists that use a thread, or one it may stand in for. */
  #rowsTouchedBy(thread: number): number[] {
    const rows: number[] = []
    this.#index.eachUser(thread, (row) => rows.push(row))
    for (const served of this.#standsInFor.get(this.#index.threadIds[thread] as string) ?? []) {
      this.#index.eachUser(served, (row) => rows.push(row))
    }
    return rows
  }

  #answerRows(rows: Iterable<number>): void {
    const among = new Set(rows)
    for (const row of among) this.#answerRow(row)
    for (const row of among) this.#chooseBest(row)
  }

  /** Take over one thread's figures by what differs, run by run. */
  #changeOne(thread: number, figures: ThreadFigures): void {
    const { postOffsets, postRow, postNeed } = this.#index.packed
    if (thread >= postOffsets.length - 1) {
      this.#putFigures(thread, figures)
      return
    }
    const last = postOffsets[thread + 1] as number
    const runs = [mixedRun, elsewhereRun, lotsRun, shortRun]
    const endsOf = () => [...[0, mixedRun, elsewhereRun, lotsRun].map((run) => this.#findEnd(thread, run)), last]
    const ranksOf = () => [statusRanks.enough, ...runs.map((run) => this.#rankOfRun(thread, run))]
    const [oldEnds, oldRanks, oldHeld] = [endsOf(), ranksOf(), this.#held[thread] as number]
    this.#putFigures(thread, figures)
    const [newEnds, newRanks, newHeld] = [endsOf(), ranksOf(), this.#held[thread] as number]

    const { worse, better } = this.#words
    const putUp = this.#putUp[thread] as number
    const written: [start: number, end: number][] = []
    let [oldRun, newRun] = [0, 0]
    let start = Math.min(oldEnds[0] as number, newEnds[0] as number)
    while (start < last) {
      while (start >= (oldEnds[oldRun] as number)) oldRun++
      while (start >= (newEnds[newRun] as number)) newRun++
      const end = Math.min(oldEnds[oldRun] as number, newEnds[newRun] as number)
      const [oldRank, newRank] = [oldRanks[oldRun] as number, newRanks[newRun] as number]
      const [wasBought, isBought] = [oldRun >= lotsRun, newRun >= lotsRun]
      const wasHeld = oldRun === lotsRun ? 0 : oldHeld
      const isHeld = newRun === lotsRun ? 0 : newHeld
      const buysOther = wasBought !== isBought || (isBought && wasHeld !== isHeld)
      if (oldRank !== newRank || buysOther) {
        const change = stepBelow(newRank) - stepBelow(oldRank)
        const changeBetter = stepOfRank(newRank) - stepOfRank(oldRank) - change
        for (let from = start; from < end; ) {
          const need = postNeed[from] as number
          const was = buysOther && wasBought ? Math.ceil((need - wasHeld) / putUp) : 0
          const is = buysOther && isBought ? Math.ceil((need - isHeld) / putUp) : 0
          const servedUpTo = Math.min(was > 0 ? wasHeld + was * putUp : mostNeed, is > 0 ? isHeld + is * putUp : mostNeed)
          const until = firstBeyond(postNeed, from, end, servedUpTo)
          for (let i = from; i < until; i++) {
            const row = postRow[i] as number
            const at = row << 1
            worse[at] = ((worse[at] as number) + is - was) | 0
            worse[at + 1] = ((worse[at + 1] as number) + change) | 0
            if (changeBetter !== 0) better[row] = ((better[row] as number) + changeBetter) | 0
          }
          from = until
        }
        written.push([start, end])
      }
      start = end
    }
    for (const [from, to] of written) this.#chooseBestAmong(postRow, from, to)
  }

  /** The best list anew for each design with several, one of which is among these postings. */
  #chooseBestAmong(postRow: Int32Array, start: number, end: number): void {
    for (let i = start; i < end; i++) this.#chooseBest(postRow[i] as number)
  }

  #rank(thread: number, need: number): number {
    const figures = this.#figures[thread] as ThreadFigures
    return rankStatus(
      need,
      figures.freeStrandTenths,
      figures.bestLotStrandTenths,
      figures.ownedStrandTenths,
      figures.bestOwnedLotStrandTenths,
      figures.isSomeHeld,
      this.#lotsMatter[thread] === 1,
      this.#putUp[thread] as number,
    )
  }

  /** One list's words, asked need by need. */
  #answerRow(row: number): void {
    const { threads, needs, start, end } = this.#index.needsOf(row)
    const swaps = this.#standIns.size === 0 ? null : this.#findSwaps(row)
    const { worse, better } = this.#words
    let putUps = 0
    const counts = new Uint8Array(lineStatuses.length)
    for (let i = start; i < end; i++) {
      const thread = threads[i] as number
      const need = needs[i] as number
      if (need <= (this.#ends[thread * 4] as number)) continue
      const own = this.#rank(thread, need)
      const rank = swaps && !isReadyRank(own) && swaps.has(this.#index.threadIds[thread] as string) ? statusRanks.swap : own
      if (rank <= statusRanks.lots) putUps += this.#putUpsFor(thread, need, rank)
      if ((counts[rank] as number) < mostCounted) counts[rank] = (counts[rank] as number) + 1
    }
    let [four, rest] = [0, end === start || this.#index.isIncomplete(row) ? bareBit : 0]
    for (let rank = 0; rank < statusRanks.enough; rank++) {
      const counted = (counts[rank] as number) * stepOfRank(rank)
      if (rank < statusRanks.unknown) four += counted
      else rest += counted
    }
    worse[row * 2] = putUps
    worse[row * 2 + 1] = four
    better[row] = rest
  }

  #putUpsFor(thread: number, need: number, rank: number): number {
    const { freeStrandTenths, bestMarkedLotStrandTenths } = this.#figures[thread] as ThreadFigures
    const lotsMatter = this.#lotsMatter[thread] === 1
    return putUpsToBuy(rank, need, freeStrandTenths, bestMarkedLotStrandTenths, lotsMatter, this.#putUp[thread] as number)
  }

  #findSwaps(row: number): Map<string, string> | null {
    const { threads, needs, start, end } = this.#index.needsOf(row)
    const { threadIds } = this.#index
    let wanted: { threadId: string; strandTenths: number }[] | null = null
    for (let i = start; i < end; i++) {
      const thread = threads[i] as number
      const strandTenths = needs[i] as number
      if (!this.#standIns.has(thread) || isReadyRank(this.#rank(thread, strandTenths))) continue
      wanted = wanted ?? []
      wanted.push({ threadId: threadIds[thread] as string, strandTenths })
    }
    if (!wanted) return null
    return assignStandIns({
      wanted,
      standInsOf: (threadId) => this.#standIns.get(this.#index.getThread(threadId)) ?? [],
      ownNeed: (threadId) => {
        const thread = this.#index.getThread(threadId)
        for (let i = start; i < end; i++) if (threads[i] === thread) return needs[i] as number
        return 0
      },
      isReadyWith: (threadId, strandTenths) => isReadyRank(this.#rank(this.#index.getThread(threadId), strandTenths)),
    })
  }

  /** A list's answer with all its counts, asked need by need. */
  #listAnswer(row: number): EngineListAnswer {
    const { threads, needs, start, end } = this.#index.needsOf(row)
    const isIncomplete = this.#index.isIncomplete(row)
    const swaps = this.#standIns.size === 0 ? null : this.#findSwaps(row)
    const tally = new Array<number>(lineStatuses.length).fill(0)
    let [shortPutUps, lotPutUps] = [0, 0]
    for (let i = start; i < end; i++) {
      const thread = threads[i] as number
      const need = needs[i] as number
      const own = this.#rank(thread, need)
      const rank = swaps && !isReadyRank(own) && swaps.has(this.#index.threadIds[thread] as string) ? statusRanks.swap : own
      tally[rank] = (tally[rank] as number) + 1
      if (rank === statusRanks.lots) lotPutUps += this.#putUpsFor(thread, need, rank)
      else if (rank < statusRanks.lots) shortPutUps += this.#putUpsFor(thread, need, rank)
    }
    const of = (...statuses: LineStatus[]) => statuses.reduce((sum, status) => sum + (tally[statusRanks[status]] as number), 0)
    const threadCount = end - start
    const [readyCount, swapCount] = [of('enough', 'mixed'), of('swap')]
    const isWhole = threadCount > 0 && !isIncomplete
    const best = isWhole ? statusRanks.enough : statusRanks.unknown
    const worst = Math.min(best, ...tally.flatMap((count, rank) => (count > 0 ? [rank] : [])))
    return {
      listId: this.#index.listAt(row) as string,
      status: lineStatuses[worst] as LineStatus,
      threadCount,
      readyCount,
      swapCount,
      elsewhereCount: of('elsewhere'),
      unknownCount: of('unknown'),
      lotsCount: of('lots'),
      shortCount: of('short', 'none'),
      shortPutUps,
      lotPutUps,
      isIncomplete,
      isStitchable: isWhole && readyCount === threadCount,
      isStitchableWithSwaps: isWhole && readyCount + swapCount === threadCount,
    }
  }

  /** The best list of a row's design anew, where it has several. */
  #chooseBest(row: number): void {
    const best = this.#index.bestRowOf(row)
    if (best >= 0) this.#chooseBestFrom(row, best)
  }

  /** As `compareAnswers` has it, on the words: what it would tell apart further, they do not say. Of equal ones the first row. */
  #chooseBestFrom(row: number, best: number): void {
    const words = this.#words
    let chosen = row
    for (let other = this.#index.nextRowOf(row); other !== row; other = this.#index.nextRowOf(other)) {
      if (isNearer(words, other, chosen)) chosen = other
    }
    copyRow(words, chosen, words, best)
  }
}

const figuresFrom = (stock: EngineStock | null): ThreadFigures =>
  stock && 'bestLotStrandTenths' in stock ? stock : figuresOf(stock)

/** Nearer to stitching: stitchable, stitchable with swaps, fewest put-ups to buy, fewest threads not ready, better status. */
function isNearer(words: AnswerWords, a: number, b: number): boolean {
  const readier = readinessAt(words, a) - readinessAt(words, b)
  if (readier !== 0) return readier > 0
  const bought = buyPutUpsAt(words, a) - buyPutUpsAt(words, b)
  if (bought !== 0) return bought < 0
  return (missingAt(words, b) - missingAt(words, a) || rankAt(words, a) - rankAt(words, b) || b - a) > 0
}

/** Most lists lack something, which one word says. */
const readinessAt = (words: AnswerWords, row: number): number =>
  words.worse[row * 2 + 1] === 0 ? (readinessOfRank[rankAt(words, row)] as number) : readiness.no

function stateOf(words: AnswerWords, row: number): DesignState {
  const rank = rankAt(words, row)
  return {
    status: lineStatuses[rank] as LineStatus,
    isStitchable: isReadyRank(rank),
    isStitchableWithSwaps: rank >= statusRanks.swap,
    buyPutUps: buyPutUpsAt(words, row),
  }
}

/** A rank's step in the word of the worse ranks; 0 for a better one. */
const stepBelow = (rank: number): number => (rank < statusRanks.unknown ? stepOfRank(rank) : 0)

/** The first place from `from` on whose need is above `bound`, by strides that double, then by halving; at least one further. */
function firstBeyond(postNeed: Uint32Array, from: number, end: number, bound: number): number {
  let low = from + 1
  let stride = 8
  while (low + stride < end && (postNeed[low + stride] as number) <= bound) {
    low += stride + 1
    stride *= 2
  }
  let high = Math.min(end, low + stride)
  while (low < high) {
    const middle = (low + high) >>> 1
    if ((postNeed[middle] as number) <= bound) low = middle + 1
    else high = middle
  }
  return low
}

function copied<T extends Float64Array | Uint8Array>(from: T, to: T): T {
  to.set(from)
  return to
}

const byBest = (a: EngineListAnswer, b: EngineListAnswer): number => compareAnswers(a, b) || compareExact(a.listId, b.listId)
