import { type AnswerColumns, readiness } from '#lib/chart/catalogue'
import { withRoom } from '#lib/chart/columns'
import { compareExact } from '#lib/stock/batch'
import type { FreeStock } from '#lib/stock/free-stock'
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
} from './line-status'

/** A thread list and what it needs of each thread, in strand tenths; a thread named twice counts as the sum. */
export type EngineList = {
  listId: string
  designId: string
  isIncomplete?: boolean
  needs: readonly { threadId: string; strandTenths: number }[]
}

/** A thread, what its line says of it, and its accepted stand-ins (which need be known only when they are judged). */
export type EngineThread = {
  threadId: string
  lotsMatter: boolean
  putUpStrandTenths: number
  standInThreadIds: readonly string[]
}

export type EngineListAnswer = ListAnswer & { listId: string }

/** The answers of a design's lists, the best first. */
export type EngineDesignAnswer = { designId: string; best: EngineListAnswer; lists: EngineListAnswer[] }

const countNames = ['ready', 'swap', 'elsewhere', 'unknown', 'lots', 'short'] as const
type CountName = (typeof countNames)[number]

/** From so many changed threads on, when they are a quarter of all: going through every list in order is then the quicker. */
const fewestManyThreads = 64

/**
 * Coverage of every thread list at once, kept up to date.
 *
 * Needs lie in columns, list after list; an inverted index says which lists use a thread, so a change of stock re-answers just those
 * (and those whose threads it may stand in for). Lists that change or come later are appended, their old rows left dead, and the index
 * is extended by an overflow; when a quarter of the rows are dead or overflowing, everything is packed anew. All figures are whole, so
 * an updated engine and a rebuilt one say exactly the same, and the order of the input makes no difference.
 *
 * 20,000 lists of 20 threads were built in half a second on one core shared with other work, and a thread used by 246 of them was
 * changed in 1.3 ms.
 */
export class CoverageEngine {
  #threadIndex = new Map<string, number>()
  #threadIds: string[] = []
  #free = new Float64Array(64)
  #bestLot = new Float64Array(64)
  #bestMarkedLot = new Float64Array(64)
  #owned = new Float64Array(64)
  #bestOwnedLot = new Float64Array(64)
  /** The longest need of which `rankStatus` says enough: most needs are settled by it alone. */
  #enoughUpTo = new Float64Array(64)
  #putUp = new Float64Array(64)
  #isSomeHeld = new Uint8Array(64)
  #lotsMatter = new Uint8Array(64)
  #standIns = new Map<number, readonly string[]>()
  #standsInFor = new Map<string, Set<number>>()

  #listIds: string[] = []
  #listIndex = new Map<string, number>()
  #designOfRow = new Uint32Array(64)
  #isAlive = new Uint8Array(64)
  #isIncomplete = new Uint8Array(64)
  #offsets = new Uint32Array(64)
  #needThread = new Uint32Array(64)
  #need = new Float64Array(64)
  #deadCount = 0

  #useOffsets = new Uint32Array(1)
  #uses = new Uint32Array(0)
  #indexedRows = 0
  #overflow = new Map<number, number[]>()

  #status = new Uint8Array(64)
  #counts = Object.fromEntries(countNames.map((name) => [name, new Uint16Array(64)])) as Record<CountName, Uint16Array>
  /** Of the list being answered: how many threads have each status. */
  readonly #tally = new Uint16Array(lineStatuses.length)
  #shortPutUps = new Uint32Array(64)
  #lotPutUps = new Uint32Array(64)

  #designIds: string[] = []
  #designIndex = new Map<string, number>()
  #listsOfDesign: number[][] = []
  #designStatus = new Uint8Array(64)
  #designReadiness = new Uint8Array(64)
  #designBuyPutUps = new Uint32Array(64)
  #layout: object = {}

  #stamp = 0
  #stamps = new Uint32Array(64)

  /**
   * @throws {RangeError} if a list uses a thread that is not among `threads`, stock is of no known thread, a list comes twice, or a
   *   need is not a whole number of nought or more.
   */
  constructor(world: { lists: Iterable<EngineList>; threads: Iterable<EngineThread>; stock: Iterable<FreeStock> }) {
    for (const thread of world.threads) this.#putThread(thread)
    for (const free of world.stock) this.#putStock(this.#getThread(free.threadId), free)
    for (const list of world.lists) {
      if (this.#listIndex.has(list.listId)) throw new RangeError(`CoverageEngine: list ${list.listId} comes twice`)
      this.#append(list)
    }
    this.#index()
    this.#answerAll()
  }

  get listCount(): number {
    return this.#listIndex.size
  }

  /** Take over a thread's free stock (null: none is held). @returns how many lists were answered again. */
  setThreadStock(threadId: string, free: FreeStock | null): number {
    const thread = this.#getThread(threadId)
    this.#putStock(thread, free)
    return this.#answerUsersOf(new Set([thread]))
  }

  /** Take over the free stock of several threads at once, each list that uses any of them being answered once. */
  setStock(stock: Iterable<FreeStock>): number {
    const threads = new Set<number>()
    for (const free of stock) {
      const thread = this.#getThread(free.threadId)
      this.#putStock(thread, free)
      threads.add(thread)
    }
    return this.#answerUsersOf(threads)
  }

  /** Add a thread, or take over its line's changed rules or its changed stand-ins. */
  setThread(thread: EngineThread): number {
    return this.#answerUsersOf(new Set([this.#putThread(thread)]))
  }

  /** Add a list, or replace the one of the same id. */
  setList(list: EngineList): void {
    for (const need of list.needs) this.#getThread(need.threadId)
    this.#bury(list.listId)
    const row = this.#append(list)
    for (let i = this.#start(row); i < this.#end(row); i++) {
      const thread = this.#needThread[i] as number
      const rows = this.#overflow.get(thread)
      if (rows) rows.push(row)
      else this.#overflow.set(thread, [row])
    }
    this.#answer(row)
    this.#chooseBest(this.#designOfRow[row] as number)
    this.#packWhenLoose()
  }

  /** Take a list out; nothing happens when it is not there. */
  removeList(listId: string): void {
    this.#bury(listId)
    this.#packWhenLoose()
  }

  /** @returns null for a design without lists. */
  answerFor(designId: string): EngineDesignAnswer | null {
    const design = this.#designIndex.get(designId)
    const rows = design === undefined ? [] : (this.#listsOfDesign[design] as number[])
    if (rows.length === 0) return null
    const lists = rows.map((row) => this.#answerOfRow(row)).sort(byBest)
    return { designId, best: lists[0] as EngineListAnswer, lists }
  }

  /** The ids of the designs that use a thread, in no particular order. */
  designsUsing(threadId: string): string[] {
    const designs = new Set<number>()
    this.#eachUser(this.#getThread(threadId), (row) => designs.add(this.#designOfRow[row] as number))
    return [...designs].map((design) => this.#designIds[design] as string)
  }

  /** The best answer of every design; a status is its rank in `lineStatuses`. */
  get designs(): AnswerColumns {
    return {
      layout: this.#layout,
      rowOf: (designId) => {
        const design = this.#designIndex.get(designId)
        return design === undefined || this.#isBare(design) ? -1 : design
      },
      statusRank: this.#designStatus,
      readiness: this.#designReadiness,
      buyPutUps: this.#designBuyPutUps,
    }
  }

  #getThread(threadId: string): number {
    const thread = this.#threadIndex.get(threadId)
    if (thread === undefined) throw new RangeError(`CoverageEngine: no thread ${threadId}`)
    return thread
  }

  #putThread({ threadId, lotsMatter, putUpStrandTenths, standInThreadIds }: EngineThread): number {
    if (!Number.isSafeInteger(putUpStrandTenths) || putUpStrandTenths < 1) {
      throw new RangeError(`CoverageEngine: put-up ${putUpStrandTenths} of thread ${threadId}`)
    }
    let thread = this.#threadIndex.get(threadId)
    if (thread === undefined) {
      thread = this.#threadIds.length
      this.#threadIds.push(threadId)
      this.#threadIndex.set(threadId, thread)
      const length = this.#threadIds.length
      this.#free = withRoom(this.#free, length)
      this.#bestLot = withRoom(this.#bestLot, length)
      this.#bestMarkedLot = withRoom(this.#bestMarkedLot, length)
      this.#owned = withRoom(this.#owned, length)
      this.#bestOwnedLot = withRoom(this.#bestOwnedLot, length)
      this.#enoughUpTo = withRoom(this.#enoughUpTo, length)
      this.#putUp = withRoom(this.#putUp, length)
      this.#isSomeHeld = withRoom(this.#isSomeHeld, length)
      this.#lotsMatter = withRoom(this.#lotsMatter, length)
    }
    this.#putUp[thread] = putUpStrandTenths
    this.#lotsMatter[thread] = Number(lotsMatter)
    this.#putEnoughUpTo(thread)
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

  #putStock(thread: number, free: FreeStock | null): void {
    const figures = figuresOf(free)
    this.#free[thread] = figures.freeStrandTenths
    this.#bestLot[thread] = figures.bestLotStrandTenths
    this.#bestMarkedLot[thread] = figures.bestMarkedLotStrandTenths
    this.#owned[thread] = figures.ownedStrandTenths
    this.#bestOwnedLot[thread] = figures.bestOwnedLotStrandTenths
    this.#isSomeHeld[thread] = Number(figures.isSomeHeld)
    this.#putEnoughUpTo(thread)
  }

  /** One lot has it, or, of a solid up to one put-up, several lots have it together. */
  #putEnoughUpTo(thread: number): void {
    const ofSeveralLots =
      this.#lotsMatter[thread] === 1 ? 0 : Math.min(this.#free[thread] as number, this.#putUp[thread] as number)
    this.#enoughUpTo[thread] = Math.max(this.#bestLot[thread] as number, ofSeveralLots)
  }

  #start(row: number): number {
    return this.#offsets[row] as number
  }

  #end(row: number): number {
    return this.#offsets[row + 1] as number
  }

  #append({ listId, designId, needs, isIncomplete }: EngineList): number {
    const row = this.#listIds.length
    this.#growLists(row + 1)
    let at = this.#start(row)
    this.#needThread = withRoom(this.#needThread, at + needs.length)
    this.#need = withRoom(this.#need, at + needs.length)
    const start = at
    for (const { threadId, strandTenths } of needs) {
      if (!Number.isSafeInteger(strandTenths) || strandTenths < 0) {
        throw new RangeError(`CoverageEngine: list ${listId} needs ${strandTenths} of ${threadId}`)
      }
      const thread = this.#getThread(threadId)
      let same = start
      while (same < at && this.#needThread[same] !== thread) same++
      if (same === at) {
        this.#needThread[at] = thread
        this.#need[at] = 0
        at++
      }
      this.#need[same] = (this.#need[same] as number) + strandTenths
    }
    this.#offsets[row + 1] = at
    this.#listIds.push(listId)
    this.#listIndex.set(listId, row)
    this.#isAlive[row] = 1
    this.#isIncomplete[row] = Number(isIncomplete ?? false)
    const design = this.#putDesign(designId)
    this.#designOfRow[row] = design
    ;(this.#listsOfDesign[design] as number[]).push(row)
    return row
  }

  #growLists(length: number): void {
    this.#designOfRow = withRoom(this.#designOfRow, length)
    this.#isAlive = withRoom(this.#isAlive, length)
    this.#isIncomplete = withRoom(this.#isIncomplete, length)
    this.#offsets = withRoom(this.#offsets, length + 1)
    this.#status = withRoom(this.#status, length)
    this.#shortPutUps = withRoom(this.#shortPutUps, length)
    this.#lotPutUps = withRoom(this.#lotPutUps, length)
    this.#stamps = withRoom(this.#stamps, length)
    for (const name of countNames) this.#counts[name] = withRoom(this.#counts[name], length)
  }

  #putDesign(designId: string): number {
    const known = this.#designIndex.get(designId)
    if (known !== undefined) {
      if (this.#isBare(known)) this.#layout = {}
      return known
    }
    const design = this.#designIds.length
    this.#designIds.push(designId)
    this.#designIndex.set(designId, design)
    this.#listsOfDesign.push([])
    this.#designStatus = withRoom(this.#designStatus, design + 1)
    this.#designReadiness = withRoom(this.#designReadiness, design + 1)
    this.#designBuyPutUps = withRoom(this.#designBuyPutUps, design + 1)
    this.#layout = {}
    return design
  }

  /** A design all of whose lists were taken out. */
  #isBare(design: number): boolean {
    return (this.#listsOfDesign[design] as number[]).length === 0
  }

  #bury(listId: string): void {
    const row = this.#listIndex.get(listId)
    if (row === undefined) return
    this.#listIndex.delete(listId)
    this.#isAlive[row] = 0
    this.#deadCount++
    const design = this.#designOfRow[row] as number
    const rows = this.#listsOfDesign[design] as number[]
    rows.splice(rows.indexOf(row), 1)
    this.#chooseBest(design)
    if (rows.length === 0) this.#layout = {}
  }

  /** Counting sort of all uses by thread. */
  #index(): void {
    const rows = this.#listIds.length
    const used = this.#start(rows)
    this.#useOffsets = new Uint32Array(this.#threadIds.length + 1)
    for (let i = 0; i < used; i++) {
      const after = (this.#needThread[i] as number) + 1
      this.#useOffsets[after] = (this.#useOffsets[after] as number) + 1
    }
    for (let thread = 0; thread < this.#threadIds.length; thread++) {
      this.#useOffsets[thread + 1] = (this.#useOffsets[thread + 1] as number) + (this.#useOffsets[thread] as number)
    }
    const next = this.#useOffsets.slice()
    this.#uses = new Uint32Array(used)
    for (let row = 0; row < rows; row++) {
      for (let i = this.#start(row); i < this.#end(row); i++) {
        const thread = this.#needThread[i] as number
        const at = next[thread] as number
        this.#uses[at] = row
        next[thread] = at + 1
      }
    }
    this.#indexedRows = rows
    this.#overflow.clear()
  }

  #packWhenLoose(): void {
    const loose = this.#deadCount + this.#listIds.length - this.#indexedRows
    if (loose > Math.max(64, this.#listIds.length / 4)) this.#pack()
  }

  /** Move the living rows together, answers and all, and index them anew. */
  #pack(): void {
    let row = 0
    let at = 0
    for (let old = 0; old < this.#listIds.length; old++) {
      if (this.#isAlive[old] === 0) continue
      const [start, end] = [this.#start(old), this.#end(old)]
      this.#needThread.copyWithin(at, start, end)
      this.#need.copyWithin(at, start, end)
      this.#offsets[row] = at
      at += end - start
      this.#offsets[row + 1] = at
      const listId = this.#listIds[old] as string
      this.#listIds[row] = listId
      this.#listIndex.set(listId, row)
      this.#isAlive[row] = 1
      const design = this.#designOfRow[old] as number
      this.#designOfRow[row] = design
      const rows = this.#listsOfDesign[design] as number[]
      rows[rows.indexOf(old)] = row
      for (const column of [
        this.#isIncomplete,
        this.#status,
        this.#shortPutUps,
        this.#lotPutUps,
        ...countNames.map((name) => this.#counts[name]),
      ]) {
        column[row] = column[old] as number
      }
      row++
    }
    this.#listIds.length = row
    this.#deadCount = 0
    this.#index()
  }

  #eachUser(thread: number, visit: (row: number) => void): void {
    const end = this.#useOffsets[thread + 1] ?? 0
    for (let i = this.#useOffsets[thread] ?? 0; i < end; i++) {
      const row = this.#uses[i] as number
      if (this.#isAlive[row] === 1) visit(row)
    }
    for (const row of this.#overflow.get(thread) ?? []) if (this.#isAlive[row] === 1) visit(row)
  }

  #answerUsersOf(changed: ReadonlySet<number>): number {
    if (changed.size > fewestManyThreads && changed.size > this.#threadIds.length / 4) return this.#answerAll()
    const threads = new Set(changed)
    for (const thread of changed) {
      for (const served of this.#standsInFor.get(this.#threadIds[thread] as string) ?? []) threads.add(served)
    }
    this.#stamp++
    if (this.#stamp > 0xffffffff) {
      this.#stamps.fill(0)
      this.#stamp = 1
    }
    const rows: number[] = []
    for (const thread of threads) {
      this.#eachUser(thread, (row) => {
        if (this.#stamps[row] === this.#stamp) return
        this.#stamps[row] = this.#stamp
        rows.push(row)
      })
    }
    for (const row of rows) this.#answer(row)
    for (const row of rows) this.#chooseBest(this.#designOfRow[row] as number)
    return rows.length
  }

  #answerAll(): number {
    for (let row = 0; row < this.#listIds.length; row++) if (this.#isAlive[row] === 1) this.#answer(row)
    for (let design = 0; design < this.#designIds.length; design++) this.#chooseBest(design)
    return this.#listIndex.size
  }

  #rank(thread: number, need: number): number {
    return rankStatus(
      need,
      this.#free[thread] as number,
      this.#bestLot[thread] as number,
      this.#owned[thread] as number,
      this.#bestOwnedLot[thread] as number,
      this.#isSomeHeld[thread] === 1,
      this.#lotsMatter[thread] === 1,
      this.#putUp[thread] as number,
    )
  }

  #answer(row: number): void {
    const [needThread, needs, tally, enoughUpTo] = [this.#needThread, this.#need, this.#tally, this.#enoughUpTo]
    const [start, end] = [this.#start(row), this.#end(row)]
    tally.fill(0)
    let shortPutUps = 0
    let lotPutUps = 0
    const swaps = this.#standIns.size === 0 ? null : this.#findSwaps(start, end)
    for (let i = start; i < end; i++) {
      const thread = needThread[i] as number
      const need = needs[i] as number
      if (need <= (enoughUpTo[thread] as number)) {
        tally[statusRanks.enough] = (tally[statusRanks.enough] as number) + 1
        continue
      }
      const own = this.#rank(thread, need)
      const rank = swaps && !isReadyRank(own) && swaps.has(this.#threadIds[thread] as string) ? statusRanks.swap : own
      tally[rank] = (tally[rank] as number) + 1
      if (rank > statusRanks.lots) continue
      const [free, marked] = [this.#free[thread] as number, this.#bestMarkedLot[thread] as number]
      const putUps = putUpsToBuy(rank, need, free, marked, this.#lotsMatter[thread] === 1, this.#putUp[thread] as number)
      if (rank === statusRanks.lots) lotPutUps += putUps
      else shortPutUps += putUps
    }
    const best = end === start || this.#isIncomplete[row] === 1 ? statusRanks.unknown : statusRanks.enough
    let worst = 0
    while (worst < best && tally[worst] === 0) worst++
    this.#status[row] = worst
    // Spelt out, not looked up by name for each need: with that and `#answerAll`, all lists took 9 ms instead of 20.
    const { ready, swap, elsewhere, unknown, lots, short } = this.#counts
    ready[row] = (tally[statusRanks.enough] as number) + (tally[statusRanks.mixed] as number)
    swap[row] = tally[statusRanks.swap] as number
    elsewhere[row] = tally[statusRanks.elsewhere] as number
    unknown[row] = tally[statusRanks.unknown] as number
    lots[row] = tally[statusRanks.lots] as number
    short[row] = (tally[statusRanks.short] as number) + (tally[statusRanks.none] as number)
    this.#shortPutUps[row] = shortPutUps
    this.#lotPutUps[row] = lotPutUps
  }

  #findSwaps(start: number, end: number): Map<string, string> | null {
    let wanted: { threadId: string; strandTenths: number }[] | null = null
    for (let i = start; i < end; i++) {
      const thread = this.#needThread[i] as number
      const strandTenths = this.#need[i] as number
      if (!this.#standIns.has(thread) || isReadyRank(this.#rank(thread, strandTenths))) continue
      wanted = wanted ?? []
      wanted.push({ threadId: this.#threadIds[thread] as string, strandTenths })
    }
    if (!wanted) return null
    return assignStandIns({
      wanted,
      standInsOf: (threadId) => this.#standIns.get(this.#getThread(threadId)) ?? [],
      ownNeed: (threadId) => {
        const thread = this.#getThread(threadId)
        for (let i = start; i < end; i++) if (this.#needThread[i] === thread) return this.#need[i] as number
        return 0
      },
      isReadyWith: (threadId, strandTenths) => isReadyRank(this.#rank(this.#getThread(threadId), strandTenths)),
    })
  }

  #answerOfRow(row: number): EngineListAnswer {
    const { ready, swap, elsewhere, unknown, lots, short } = this.#counts
    return {
      listId: this.#listIds[row] as string,
      status: lineStatuses[this.#status[row] as number] as LineStatus,
      threadCount: this.#end(row) - this.#start(row),
      readyCount: ready[row] as number,
      swapCount: swap[row] as number,
      elsewhereCount: elsewhere[row] as number,
      unknownCount: unknown[row] as number,
      lotsCount: lots[row] as number,
      shortCount: short[row] as number,
      shortPutUps: this.#shortPutUps[row] as number,
      lotPutUps: this.#lotPutUps[row] as number,
      isIncomplete: this.#isIncomplete[row] === 1,
      ...this.#readinessOf(row),
    }
  }

  #readinessOf(row: number): { isStitchable: boolean; isStitchableWithSwaps: boolean } {
    const threadCount = this.#end(row) - this.#start(row)
    const isWhole = threadCount > 0 && this.#isIncomplete[row] === 0
    const readyCount = this.#counts.ready[row] as number
    const swapCount = this.#counts.swap[row] as number
    return {
      isStitchable: isWhole && readyCount === threadCount,
      isStitchableWithSwaps: isWhole && readyCount + swapCount === threadCount,
    }
  }

  #chooseBest(design: number): void {
    const rows = this.#listsOfDesign[design] as number[]
    let best = rows[0] ?? -1
    if (rows.length > 1) {
      let bestAnswer = this.#answerOfRow(best)
      for (const row of rows.slice(1)) {
        const answer = this.#answerOfRow(row)
        if (byBest(answer, bestAnswer) < 0) [best, bestAnswer] = [row, answer]
      }
    }
    if (best === -1) return
    const { isStitchable, isStitchableWithSwaps } = this.#readinessOf(best)
    this.#designStatus[design] = this.#status[best] as number
    this.#designReadiness[design] = isStitchable ? readiness.now : isStitchableWithSwaps ? readiness.withSwaps : readiness.no
    this.#designBuyPutUps[design] = (this.#shortPutUps[best] as number) + (this.#lotPutUps[best] as number)
  }
}

const byBest = (a: EngineListAnswer, b: EngineListAnswer): number => compareAnswers(a, b) || compareExact(a.listId, b.listId)
