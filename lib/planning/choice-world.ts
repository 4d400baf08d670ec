import type { CutFrom, CutWay } from '#lib/cloth/cut-plan'

/** One palette a design may be worked from, every thread of it held in enough length for this design alone. */
export type ChoiceList = { listId: string; needs: readonly { threadId: string; strandTenths: number }[] }

/** A design that could be stitched: from some of its lists, on some of the pieces. */
export type ChoiceDesign = {
  id: string
  /** What it counts, a whole number above nought. */
  value: number
  lists: readonly ChoiceList[]
  /** How its cut may lie on each piece it may be worked on, by the piece's id. */
  ways: Readonly<Record<string, readonly CutWay[]>>
}

/** What is free of a thread: where lots matter, of each lot, the fullest first. */
export type ChoiceThread = { lotsMatter: boolean; freeStrandTenths: number; lotsStrandTenths: readonly number[] }

/** Designs, the pieces they are to be cut from and the thread they share. */
export type ChoiceWorld = {
  designs: readonly ChoiceDesign[]
  pieces: readonly CutFrom[]
  threads: ReadonlyMap<string, ChoiceThread>
  gapUm: number
}

/** A chosen design: the list it is worked from, the piece it is cut from, and of which lot each thread is whose lots matter. */
export type Placed = { designId: string; listId: string; pieceId: string; lots: Readonly<Record<string, number>> }

/** What is left of each thread once the chosen designs have theirs; of a thread whose lots matter, of each lot. */
export type ThreadsLeft = ReadonlyMap<string, { freeStrandTenths: number; lotsStrandTenths: number[] }>

/**
 * What the chosen designs leave of the thread.
 *
 * @throws {RangeError} if they take more than there is, or a list, lot or thread is not of this world
 */
export function threadsLeft(world: ChoiceWorld, placed: readonly Placed[]): ThreadsLeft {
  const left = new Map(
    [...world.threads].map(([threadId, { freeStrandTenths, lotsStrandTenths }]) => [
      threadId,
      { freeStrandTenths, lotsStrandTenths: [...lotsStrandTenths] },
    ]),
  )
  const designs = new Map(world.designs.map((design) => [design.id, design]))
  for (const { designId, listId, lots } of placed) {
    const list = designs.get(designId)?.lists.find((one) => one.listId === listId)
    if (!list) throw new RangeError(`threadsLeft: no list ${listId} of design ${designId}`)
    for (const { threadId, strandTenths } of list.needs) {
      const thread = left.get(threadId)
      if (!thread) throw new RangeError(`threadsLeft: no thread ${threadId}`)
      thread.freeStrandTenths -= strandTenths
      if (thread.freeStrandTenths < 0) throw new RangeError(`threadsLeft: thread ${threadId} does not reach`)
      if (!world.threads.get(threadId)?.lotsMatter) continue
      const lot = lots[threadId] ?? -1
      const lotLeft = (thread.lotsStrandTenths[lot] ?? -1) - strandTenths
      if (lotLeft < 0) throw new RangeError(`threadsLeft: lot ${lot} of thread ${threadId} does not reach`)
      thread.lotsStrandTenths[lot] = lotLeft
    }
  }
  return left
}

/**
 * The lot each thread of a list would be taken from out of what is left: the tightest that holds it.
 *
 * @returns null when some thread does not reach
 */
export function lotsFor(world: ChoiceWorld, list: ChoiceList, left: ThreadsLeft): Record<string, number> | null {
  const lots: Record<string, number> = {}
  for (const { threadId, strandTenths } of list.needs) {
    const thread = left.get(threadId)
    if (!thread || thread.freeStrandTenths < strandTenths) return null
    if (!world.threads.get(threadId)?.lotsMatter) continue
    let tightest = -1
    thread.lotsStrandTenths.forEach((lotLeft, lot) => {
      const known = thread.lotsStrandTenths[tightest]
      if (lotLeft >= strandTenths && (known === undefined || lotLeft < known)) tightest = lot
    })
    if (tightest < 0) return null
    lots[threadId] = tightest
  }
  return lots
}
