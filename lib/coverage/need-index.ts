import { mostCounted } from './answer-words'
import {
  columnFor,
  grown,
  type ListNeeds,
  mostRows,
  type NeedColumns,
  noNeeds,
  postingsOf,
  type RowNeeds,
  rowFlags,
  type ThreadColumn,
  writeNeeds,
} from './need-columns'
import { RowsByText } from './rows-by-text'

/**
 * Gathers lists one by one, as they are read, into columns, to be finished once; only wide lists are kept as objects. It stands beside the
 * index because the index, packed anew, is built by it.
 */
export class NeedIndexBuilder {
  readonly #threadIndex = new Map<string, number>()
  readonly #threadIds: string[]
  readonly #designIds: string[] = []
  readonly #listIds: string[] = []
  readonly #seen = new Set<string>()
  #flags = new Uint8Array(64)
  #offsets = new Uint32Array(65)
  #needThread: ThreadColumn
  #need = new Uint32Array(256)
  #wide: ListNeeds[] = []

  /** @param threadIds  Every thread a list may name. */
  constructor(threadIds: Iterable<string>) {
    this.#threadIds = [...threadIds]
    for (const [thread, threadId] of this.#threadIds.entries()) this.#threadIndex.set(threadId, thread)
    this.#needThread = columnFor(this.#threadIds.length, 256)
  }

  /** @throws {RangeError} if a thread is not known, a list comes twice, or a need is not a whole number of nought or more. */
  add(list: ListNeeds): void {
    const { listId, designId, needs, isIncomplete } = list
    if (this.#seen.has(listId)) throw new RangeError(`NeedIndex: list ${listId} comes twice`)
    this.#seen.add(listId)
    const row = this.#listIds.length
    if (row >= mostRows) throw new RangeError(`NeedIndex: more than ${mostRows} lists`)
    this.#flags = grown(this.#flags, row + 1)
    this.#offsets = grown(this.#offsets, row + 2)
    const start = this.#offsets[row] as number
    this.#needThread = grown(this.#needThread, start + needs.length)
    this.#need = grown(this.#need, start + needs.length)
    const end = writeNeeds(list, (threadId) => this.#threadIndex.get(threadId), this.#needThread, this.#need, start)
    if (end - start > mostCounted) {
      this.#wide.push(list)
      return
    }
    this.#listIds.push(listId)
    this.#designIds.push(designId)
    this.#flags[row] = isIncomplete ? rowFlags.incomplete : 0
    this.#offsets[row + 1] = end
  }

  finish(): NeedIndex {
    const rows = this.#listIds.length
    const offsets = this.#offsets.slice(0, rows + 1)
    const used = offsets[rows] as number
    const columns = {
      threadIds: this.#threadIds,
      listIds: this.#listIds,
      designIds: this.#designIds,
      flags: this.#flags.slice(0, rows),
      offsets,
      needThread: this.#needThread.slice(0, used),
      need: this.#need.slice(0, used),
    }
    this.#seen.clear()
    this.#needThread = new Uint16Array(0)
    this.#need = new Uint32Array(0)
    return NeedIndex.of(columns, this.#wide)
  }
}

/**
 * What every thread list needs, in columns, and for each thread the lists that use it, by need.
 *
 * A list is a row. Needs lie list after list; postings thread after thread. Lists that change or come later are kept aside as rows
 * of their own, the old ones left dead, until so many are loose that everything is packed anew, which gives rows new numbers and
 * raises `packing`. A design with several lists has one more row, without needs, for the best of them, so that one number says where
 * a design's answer is. Shared by the engines of all owners.
 *
 * A key line costs 14 bytes while there are at most 65,536 threads: its thread (2) and need (4), and once more row and need (8).
 */
export class NeedIndex {
  #columns: NeedColumns
  readonly #threadIndex = new Map<string, number>()
  /** By design with a list: the row of its answer. */
  #answerRow: RowsByText
  /**
   * Two numbers a row. The row for the best of its design's lists, −1 for a list that is alone; and another of these lists, so that one
   * comes round through them all (for the row for the best: any of them).
   */
  #kin = new Int32Array(0)
  #late: RowNeeds[] = []
  #lateListIds: (string | null)[] = []
  #lateDesignIds: string[] = []
  #lateFlags: number[] = []
  /** The rows that came after packing and use a thread, in no order. */
  #lateUsers = new Map<number, number[]>()
  #looseCount = 0
  #listCount = 0
  #packing = 0
  #layout: object = {}

  private constructor(columns: NeedColumns, wide: readonly ListNeeds[]) {
    this.#columns = columns
    this.#answerRow = this.#noAnswers()
    for (const [thread, threadId] of columns.threadIds.entries()) this.#threadIndex.set(threadId, thread)
    this.#placeDesigns(wide)
  }

  /** From columns without postings (which are then made) or with them, as a snapshot has them; and the wide lists. */
  static of(
    columns: Omit<NeedColumns, 'postOffsets' | 'postRow' | 'postNeed'> &
      Partial<Pick<NeedColumns, 'postOffsets' | 'postRow' | 'postNeed'>>,
    wide: readonly ListNeeds[],
  ): NeedIndex {
    const { postOffsets, postRow, postNeed } = columns
    if (postOffsets && postRow && postNeed) return new NeedIndex({ ...columns, postOffsets, postRow, postNeed }, wide)
    const postings = postingsOf(columns.threadIds.length, columns.offsets, columns.needThread, columns.need)
    return new NeedIndex({ ...columns, ...postings }, wide)
  }

  /** The packed columns; read only. Rows from `listIds.length` on came later. */
  get packed(): NeedColumns {
    return this.#columns
  }

  get threadIds(): readonly string[] {
    return this.#columns.threadIds
  }

  get listCount(): number {
    return this.#listCount
  }

  /** Rows of any kind: lists, dead ones, and those for the best of several. */
  get rowCount(): number {
    return this.#columns.listIds.length + this.#late.length
  }

  /** Raised when rows get new numbers. */
  get packing(): number {
    return this.#packing
  }

  /** Another object as soon as `answerRowOf` may say something else. */
  get layout(): object {
    return this.#layout
  }

  /** Lists' rows that are dead or came after packing. */
  get looseCount(): number {
    return this.#looseCount
  }

  findThread(threadId: string): number | null {
    return this.#threadIndex.get(threadId) ?? null
  }

  /** @throws {RangeError} if the thread is not known. */
  getThread(threadId: string): number {
    const thread = this.#threadIndex.get(threadId)
    if (thread === undefined) throw new RangeError(`NeedIndex: no thread ${threadId}`)
    return thread
  }

  /** @returns its number, a new one when it was not known. */
  addThread(threadId: string): number {
    const known = this.#threadIndex.get(threadId)
    if (known !== undefined) return known
    const { threadIds } = this.#columns
    const thread = threadIds.length
    threadIds.push(threadId)
    this.#threadIndex.set(threadId, thread)
    return thread
  }

  /** @returns −1 for a design without lists. */
  answerRowOf(designId: string): number {
    return this.#answerRow.get(designId)
  }

  designAt(row: number): string {
    const base = this.#columns.designIds.length
    return (row < base ? this.#columns.designIds[row] : this.#lateDesignIds[row - base]) as string
  }

  /** The row for the best of several lists, where a row's design has such; else −1. */
  bestRowOf(row: number): number {
    return this.#kin[row * 2] as number
  }

  /** The next list's row of the same design, the first after the last; from the row for the best, the first. */
  nextRowOf(row: number): number {
    return this.#kin[row * 2 + 1] as number
  }

  /** Is a row the one for the best of several lists? One that was, of a design that has no longer several, is not. */
  isBestRow(row: number): boolean {
    return row >= this.#columns.listIds.length && this.#kin[row * 2 + 1] !== -1 && this.listAt(row) === null
  }

  /** The rows of a design's lists. */
  rowsOf(designId: string): readonly number[] {
    const row = this.#answerRow.get(designId)
    if (row < 0) return []
    if (this.listAt(row) !== null) return [row]
    const first = this.#kin[row * 2 + 1] as number
    const rows = [first]
    for (let other = this.#kin[first * 2 + 1] as number; other !== first; other = this.#kin[other * 2 + 1] as number)
      rows.push(other)
    return rows
  }

  /** Null for a row that is no list's. */
  listAt(row: number): string | null {
    const base = this.#columns.listIds.length
    return row < base ? (this.#columns.listIds[row] as string) : (this.#lateListIds[row - base] as string | null)
  }

  /** Calls `visit` with each packed row in which nothing will ever be ready: it has no needs, is known to lack some, or was taken out. */
  eachBareRow(visit: (row: number) => void): void {
    const { offsets, flags } = this.#columns
    for (let row = 0; row < flags.length; row++) if (flags[row] !== 0 || offsets[row] === offsets[row + 1]) visit(row)
  }

  isIncomplete(row: number): boolean {
    return (this.#flagsOf(row) & rowFlags.incomplete) !== 0
  }

  needsOf(row: number): RowNeeds {
    const { offsets, needThread, need, listIds } = this.#columns
    if (row >= listIds.length) return this.#late[row - listIds.length] as RowNeeds
    return { threads: needThread, needs: need, start: offsets[row] as number, end: offsets[row + 1] as number }
  }

  /** The rows that came after packing and use a thread, dead ones among them. */
  lateRowsOf(thread: number): readonly number[] {
    return this.#lateUsers.get(thread) ?? []
  }

  /** Calls `visit` with each list's row that uses a thread. */
  eachUser(thread: number, visit: (row: number) => void): void {
    const { postOffsets, postRow } = this.#columns
    for (let i = postOffsets[thread] ?? 0, end = postOffsets[thread + 1] ?? 0; i < end; i++) {
      const row = postRow[i] as number
      if (!this.#isDead(row)) visit(row)
    }
    for (const row of this.lateRowsOf(thread)) if (!this.#isDead(row)) visit(row)
  }

  /** How many designs have a list that uses a thread; none for one that is not known. */
  designCountOf(threadId: string): number {
    const thread = this.findThread(threadId)
    if (thread === null) return 0
    const designIds = new Set<string>()
    this.eachUser(thread, (row) => designIds.add(this.designAt(row)))
    return designIds.size
  }

  /** What each list needs of a thread, in no order. @throws {RangeError} if the thread is not known. */
  usesOf(threadId: string): { designId: string; listId: string; strandTenths: number }[] {
    const thread = this.getThread(threadId)
    const uses: { designId: string; listId: string; strandTenths: number }[] = []
    this.eachUser(thread, (row) => {
      const { threads, needs, start, end } = this.needsOf(row)
      for (let i = start; i < end; i++) {
        if (threads[i] !== thread) continue
        uses.push({ designId: this.designAt(row), listId: this.listAt(row) as string, strandTenths: needs[i] as number })
      }
    })
    return uses
  }

  /**
   * Add a list, or replace the one of the same id and design.
   *
   * @throws {RangeError} as when building; nothing is then changed.
   */
  setList(list: ListNeeds): void {
    const needs = this.#readNeeds(list)
    this.#bury(list.designId, list.listId)
    this.#addLate(list, needs)
    this.#layout = {}
    this.#packWhenLoose()
  }

  #readNeeds(list: ListNeeds): RowNeeds {
    const threads = new Uint32Array(list.needs.length)
    const needs = new Uint32Array(list.needs.length)
    const end = writeNeeds(list, (threadId) => this.#threadIndex.get(threadId), threads, needs, 0)
    return { threads, needs, start: 0, end }
  }

  #addLate(list: ListNeeds, rowNeeds: RowNeeds): void {
    const { threads, end } = rowNeeds
    const row = this.#appendLate(list.listId, list.designId, list.isIncomplete ? rowFlags.incomplete : 0, rowNeeds)
    for (let i = 0; i < end; i++) {
      const users = this.#lateUsers.get(threads[i] as number)
      if (users) users.push(row)
      else this.#lateUsers.set(threads[i] as number, [row])
    }
    this.#join(list.designId, row)
    this.#listCount++
    if (end <= mostCounted) this.#looseCount++
  }

  /** Take a list out; nothing happens when it is not there. */
  removeList(designId: string, listId: string): void {
    if (this.#bury(designId, listId)) this.#packWhenLoose()
  }

  /** Move the living rows together and index them anew; does nothing when nothing is loose. */
  pack(): void {
    if (this.#looseCount === 0) return
    const before = this.#columns
    const wide: ListNeeds[] = []
    const builder = new NeedIndexBuilder(before.threadIds)
    for (let row = 0; row < this.rowCount; row++) {
      const listId = this.listAt(row)
      if (listId === null || this.#isDead(row)) continue
      const list = this.#listOf(row, listId)
      if (list.needs.length > mostCounted) wide.push(list)
      else builder.add(list)
    }
    this.#columns = builder.finish().#columns
    this.#placeDesigns(wide)
    this.#packing++
  }

  /** Lists with more threads than are counted in words: never packed. */
  get wide(): ListNeeds[] {
    return this.#late.flatMap(({ start, end }, late) => {
      const row = this.#columns.listIds.length + late
      const listId = this.listAt(row)
      return listId === null || this.#isDead(row) || end - start <= mostCounted ? [] : [this.#listOf(row, listId)]
    })
  }

  #listOf(row: number, listId: string): ListNeeds {
    const { threads, needs, start, end } = this.needsOf(row)
    return {
      listId,
      designId: this.designAt(row),
      isIncomplete: this.isIncomplete(row),
      needs: Array.from({ length: end - start }, (_, i) => ({
        threadId: this.#columns.threadIds[threads[start + i] as number] as string,
        strandTenths: needs[start + i] as number,
      })),
    }
  }

  #noAnswers(): RowsByText {
    return new RowsByText((row) => this.designAt(row), this.#columns.listIds.length)
  }

  #packWhenLoose(): void {
    if (this.#looseCount > Math.max(64, this.#columns.listIds.length / 4)) this.pack()
  }

  #placeDesigns(wide: readonly ListNeeds[]): void {
    const { designIds, listIds } = this.#columns
    this.#answerRow = this.#noAnswers()
    this.#late = []
    this.#lateListIds = []
    this.#lateDesignIds = []
    this.#lateFlags = []
    this.#kin = new Int32Array(listIds.length * 2).fill(-1)
    this.#lateUsers.clear()
    this.#looseCount = 0
    this.#listCount = listIds.length
    for (let row = 0; row < listIds.length; row++) this.#join(designIds[row] as string, row)
    // As large as they need be: most collections never change so much that they would grow.
    this.#kin = this.#kin.slice(0, this.rowCount * 2)
    this.#late = this.#late.slice()
    this.#lateListIds = this.#lateListIds.slice()
    this.#lateDesignIds = this.#lateDesignIds.slice()
    this.#lateFlags = this.#lateFlags.slice()
    for (const list of wide) this.#addLate(list, this.#readNeeds(list))
    this.#layout = {}
  }

  /** Count a row among its design's lists. */
  #join(designId: string, row: number): void {
    const known = this.#answerRow.get(designId)
    if (known < 0) this.#answerRow.set(designId, row)
    else if (this.listAt(known) === null) this.#link(row, known, this.#kin[known * 2 + 1] as number)
    else {
      const best = this.#appendLate(null, designId, 0, noNeeds)
      this.#answerRow.set(designId, best)
      this.#kin[best * 2 + 1] = known
      this.#kin[known * 2 + 1] = known
      this.#kin[known * 2] = best
      this.#link(row, best, known)
    }
  }

  #link(row: number, best: number, after: number): void {
    this.#kin[row * 2] = best
    this.#kin[row * 2 + 1] = this.#kin[after * 2 + 1] as number
    this.#kin[after * 2 + 1] = row
  }

  #unlink(row: number, best: number): void {
    let before = row
    while (this.#kin[before * 2 + 1] !== row) before = this.#kin[before * 2 + 1] as number
    const after = this.#kin[row * 2 + 1] as number
    this.#kin[before * 2 + 1] = after
    this.#kin[best * 2 + 1] = after
    this.#kin[row * 2] = -1
    if (before !== after) return
    this.#answerRow.set(this.designAt(after), after)
    this.#kin[after * 2] = -1
    this.#kin[best * 2 + 1] = -1
  }

  #appendLate(listId: string | null, designId: string, flags: number, needs: RowNeeds): number {
    const row = this.rowCount
    this.#kin = grown(this.#kin, row * 2 + 2)
    this.#kin[row * 2] = -1
    this.#kin[row * 2 + 1] = -1
    this.#late.push(needs)
    this.#lateListIds.push(listId)
    this.#lateDesignIds.push(designId)
    this.#lateFlags.push(flags)
    return row
  }

  #bury(designId: string, listId: string): boolean {
    const row = this.rowsOf(designId).find((known) => this.listAt(known) === listId)
    if (row === undefined) return false
    const base = this.#columns.listIds.length
    if (row < base) this.#columns.flags[row] = (this.#columns.flags[row] as number) | rowFlags.dead
    else this.#lateFlags[row - base] = (this.#lateFlags[row - base] as number) | rowFlags.dead
    this.#looseCount++
    this.#listCount--
    const best = this.#kin[row * 2] as number
    if (best < 0) this.#answerRow.delete(designId)
    else this.#unlink(row, best)
    this.#layout = {}
    return true
  }

  #flagsOf(row: number): number {
    const base = this.#columns.listIds.length
    return row < base ? (this.#columns.flags[row] as number) : (this.#lateFlags[row - base] as number)
  }

  #isDead(row: number): boolean {
    return (this.#flagsOf(row) & rowFlags.dead) !== 0
  }
}
