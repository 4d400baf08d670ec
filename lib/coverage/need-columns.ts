/** A thread list and what it needs of each thread, in strand tenths; a thread named twice counts as the sum. */
export type ListNeeds = {
  listId: string
  designId: string
  isIncomplete?: boolean
  needs: readonly { threadId: string; strandTenths: number }[]
}

/** What a need beyond it is taken for: 429 km of one strand, some 9,000 skeins of 8 m of six. */
export const mostNeed = 0xffff_ffff

/** Postings are sorted by need and row packed into one exact double: 32 bits of need, 21 of row. */
export const mostRows = 2 ** 21
/** A list known to lack lines; one that was taken out. */
export const rowFlags = { incomplete: 1, dead: 2 } as const

export type ThreadColumn = Uint16Array | Uint32Array

/** Columns of the packed part, all that a snapshot has to keep. Lengths are in strand tenths. */
export type NeedColumns = {
  threadIds: string[]
  /** By row. */
  listIds: string[]
  designIds: string[]
  flags: Uint8Array
  /** Where each row's needs begin; one more than there are rows. */
  offsets: Uint32Array
  needThread: ThreadColumn
  need: Uint32Array
  /** Where each thread's postings begin; one more than there are threads. Within a thread by need, then row. */
  postOffsets: Uint32Array
  postRow: Int32Array
  postNeed: Uint32Array
}

/** Needs of one row: those from `start` to before `end`. */
export type RowNeeds = { threads: ThreadColumn; needs: Uint32Array; start: number; end: number }

/** Of a row that is no list's. */
export const noNeeds: RowNeeds = { threads: new Uint16Array(0), needs: new Uint32Array(0), start: 0, end: 0 }

export const columnFor = (threadCount: number, length: number): ThreadColumn =>
  threadCount <= 0x1_0000 ? new Uint16Array(length) : new Uint32Array(length)

export function grown<T extends Uint8Array | Uint16Array | Uint32Array | Int32Array>(column: T, length: number): T {
  if (length <= column.length) return column
  const larger = new (column.constructor as new (length: number) => T)(Math.max(64, length, Math.ceil(column.length * 1.25)))
  larger.set(column)
  return larger
}

/** @returns where the list's needs end; the same thread twice is summed in the first's place. */
export function writeNeeds(
  { listId, needs }: ListNeeds,
  threadOf: (threadId: string) => number | undefined,
  needThread: ThreadColumn,
  need: Uint32Array,
  start: number,
): number {
  let end = start
  for (const { threadId, strandTenths } of needs) {
    if (!Number.isSafeInteger(strandTenths) || strandTenths < 0) {
      throw new RangeError(`NeedIndex: list ${listId} needs ${strandTenths} of ${threadId}`)
    }
    const thread = threadOf(threadId)
    if (thread === undefined) throw new RangeError(`NeedIndex: no thread ${threadId}`)
    let at = start
    while (at < end && needThread[at] !== thread) at++
    if (at === end) {
      needThread[at] = thread
      need[at] = 0
      end++
    }
    need[at] = Math.min(mostNeed, (need[at] as number) + strandTenths)
  }
  return end
}

/** Sorts each thread's uses by need, then row. */
export function postingsOf(
  threadCount: number,
  offsets: Uint32Array,
  needThread: ThreadColumn,
  need: Uint32Array,
): Pick<NeedColumns, 'postOffsets' | 'postRow' | 'postNeed'> {
  const postOffsets = new Uint32Array(threadCount + 1)
  for (let i = 0; i < needThread.length; i++) {
    const after = (needThread[i] as number) + 1
    postOffsets[after] = (postOffsets[after] as number) + 1
  }
  for (let thread = 0; thread < threadCount; thread++) {
    postOffsets[thread + 1] = (postOffsets[thread + 1] as number) + (postOffsets[thread] as number)
  }
  const next = postOffsets.slice()
  const postRow = new Int32Array(needThread.length)
  const postNeed = new Uint32Array(needThread.length)
  for (let row = 0; row + 1 < offsets.length; row++) {
    for (let i = offsets[row] as number, end = offsets[row + 1] as number; i < end; i++) {
      const thread = needThread[i] as number
      const at = next[thread] as number
      postRow[at] = row
      postNeed[at] = need[i] as number
      next[thread] = at + 1
    }
  }
  let keys = new Float64Array(64)
  for (let thread = 0; thread < threadCount; thread++) {
    const [start, end] = [postOffsets[thread] as number, postOffsets[thread + 1] as number]
    if (end - start < 2) continue
    if (keys.length < end - start) keys = new Float64Array((end - start) * 2)
    const own = keys.subarray(0, end - start)
    for (let i = start; i < end; i++) own[i - start] = (postNeed[i] as number) * mostRows + (postRow[i] as number)
    own.sort()
    for (let i = start; i < end; i++) {
      const key = own[i - start] as number
      const strandTenths = Math.floor(key / mostRows)
      postNeed[i] = strandTenths
      postRow[i] = key - strandTenths * mostRows
    }
  }
  return { postOffsets, postRow, postNeed }
}
