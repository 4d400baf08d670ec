import type { CutFrom, CutWay } from '#lib/cloth/cut-plan'

/** One palette a design may be worked from: what all its copies need of each thread. */
export type ChoiceList = { listId: string; needs: readonly { threadId: string; strandTenths: number }[] }

/** Whether a person says that a design must be among the chosen, may be, or may not. */
export const choicePins = ['in', 'may', 'out'] as const
export type ChoicePin = (typeof choicePins)[number]

/** A design that could be stitched: from some of its lists, on some of the pieces. */
export type ChoiceDesign = {
  id: string
  /** What it counts, a whole number above nought. */
  value: number
  /** All of them or none: a kit batch is not begun in part. */
  copies: number
  pin: ChoicePin
  lists: readonly ChoiceList[]
  /** How one copy's cut may lie on each piece it may be worked on, by the piece's id. */
  ways: Readonly<Record<string, readonly CutWay[]>>
}

/** What is free of a thread: where lots matter, of each lot, the fullest first; and how it is sold. */
export type ChoiceThread = {
  lotsMatter: boolean
  freeStrandTenths: number
  lotsStrandTenths: readonly number[]
  putUpStrandTenths: number
  /** Of one put-up; null where nobody said. */
  priceMinor: number | null
}

/** What may be bought beside what is free. */
export type Buying =
  | { kind: 'nothing' }
  /** Whole put-ups of any thread. */
  | { kind: 'put-ups'; most: number }
  /** Money in cents or pence; a thread without a price is not bought. */
  | { kind: 'budget'; mostMinor: number }

/** Designs, the pieces they are to be cut from and the thread they share. */
export type ChoiceWorld = {
  designs: readonly ChoiceDesign[]
  /** Null: cloth is left aside, and thread alone decides. */
  pieces: readonly CutFrom[] | null
  threads: ReadonlyMap<string, ChoiceThread>
  gapUm: number
  buying: Buying
}

/**
 * A chosen design: the list it is worked from, the piece each copy is cut from (none with cloth aside), and of which lot each thread is
 * whose lots matter. The number after the last lot held is the lot that is bought.
 */
export type Placed = { designId: string; listId: string; pieceIds: readonly string[]; lots: Readonly<Record<string, number>> }

/** What is left of each thread once the chosen designs have theirs; of a thread whose lots matter, of each lot. */
export type ThreadLeft = {
  /** What is held and what is bought, less what is taken. */
  freeStrandTenths: number
  /** The bought lot comes last. */
  lotsStrandTenths: number[]
  boughtPutUps: number
}
export type ThreadsLeft = ReadonlyMap<string, ThreadLeft>

/** How much may be bought: put-ups or money; nought where nothing may. */
export function mostBought(buying: Buying): number {
  switch (buying.kind) {
    case 'nothing':
      return 0
    case 'put-ups':
      return buying.most
    case 'budget':
      return buying.mostMinor
  }
}

/** What one put-up takes off that; null where the thread is not bought at all. */
export function costOfPutUp(buying: Buying, thread: ChoiceThread): number | null {
  switch (buying.kind) {
    case 'nothing':
      return null
    case 'put-ups':
      return 1
    case 'budget':
      return thread.priceMinor
  }
}

const listOf = (world: ChoiceWorld, { designId, listId }: Placed): ChoiceList => {
  const list = world.designs.find(({ id }) => id === designId)?.lists.find((one) => one.listId === listId)
  if (!list) throw new RangeError(`choice: no list ${listId} of design ${designId}`)
  return list
}

/**
 * What the chosen designs leave of the thread, with the fewest put-ups bought that make them reach.
 *
 * @throws {RangeError} if they take more than there is and may be bought, or a list, lot or thread is not of this world
 */
export function threadsLeft(world: ChoiceWorld, placed: readonly Placed[]): ThreadsLeft {
  const left = new Map(
    [...world.threads].map(([threadId, thread]): [string, ThreadLeft] => [
      threadId,
      { freeStrandTenths: thread.freeStrandTenths, lotsStrandTenths: [...thread.lotsStrandTenths, 0], boughtPutUps: 0 },
    ]),
  )
  for (const one of placed) {
    for (const { threadId, strandTenths } of listOf(world, one).needs) {
      const [thread, known] = [left.get(threadId), world.threads.get(threadId)]
      if (!thread || !known) throw new RangeError(`threadsLeft: no thread ${threadId}`)
      thread.freeStrandTenths -= strandTenths
      if (!known.lotsMatter) continue
      const lot = one.lots[threadId] ?? -1
      if (thread.lotsStrandTenths[lot] === undefined) throw new RangeError(`threadsLeft: no lot ${lot} of thread ${threadId}`)
      thread.lotsStrandTenths[lot] -= strandTenths
    }
  }
  let spent = 0
  for (const [threadId, thread] of left) {
    const known = world.threads.get(threadId) as ChoiceThread
    const bought = known.lotsStrandTenths.length
    thread.lotsStrandTenths.forEach((lotLeft, lot) => {
      if (lot !== bought && lotLeft < 0) throw new RangeError(`threadsLeft: lot ${lot} of thread ${threadId} does not reach`)
    })
    const short = known.lotsMatter ? -(thread.lotsStrandTenths[bought] as number) : -thread.freeStrandTenths
    if (short <= 0) continue
    const cost = costOfPutUp(world.buying, known)
    if (cost === null) throw new RangeError(`threadsLeft: thread ${threadId} does not reach`)
    thread.boughtPutUps = Math.ceil(short / known.putUpStrandTenths)
    const boughtTenths = thread.boughtPutUps * known.putUpStrandTenths
    thread.freeStrandTenths += boughtTenths
    thread.lotsStrandTenths[bought] = (thread.lotsStrandTenths[bought] as number) + boughtTenths
    spent += thread.boughtPutUps * cost
  }
  if (spent > mostBought(world.buying)) throw new RangeError(`threadsLeft: ${spent} is more than may be bought`)
  return left
}

/** Put-ups bought of one thread; `minor` is what they cost, null where no price is known. */
export type Bought = { threadId: string; putUps: number; minor: number | null; isOneLot: boolean }

/** What is bought for the chosen designs, threads by id. */
export function boughtFor(world: ChoiceWorld, left: ThreadsLeft): Bought[] {
  return [...left].flatMap(([threadId, { boughtPutUps: putUps }]) => {
    const thread = world.threads.get(threadId)
    if (!thread || putUps === 0) return []
    const minor = thread.priceMinor === null ? null : thread.priceMinor * putUps
    return [{ threadId, putUps, minor, isOneLot: thread.lotsMatter }]
  })
}

/** What is bought takes so much of what may be. */
export const spentOn = ({ buying }: ChoiceWorld, bought: readonly Bought[]): number =>
  bought.reduce((sum, { putUps, minor }) => sum + (buying.kind === 'budget' ? (minor ?? 0) : putUps), 0)

/** How a list would have one thread out of what is left: of which lot, and with how many put-ups more. */
export type HadFrom = { threadId: string; strandTenths: number; lot: number | null; morePutUps: number; bestStrandTenths: number }

/**
 * How each thread of a list would be had: from the tightest lot that holds it, else with whole put-ups bought more.
 *
 * `bestStrandTenths` is what there is of it without buying more: all that is left, or the fullest lot where lots matter.
 */
export function hadFrom(world: ChoiceWorld, list: ChoiceList, left: ThreadsLeft): HadFrom[] {
  return list.needs.map(({ threadId, strandTenths }) => {
    const [thread, known] = [left.get(threadId), world.threads.get(threadId)]
    if (!thread || !known) throw new RangeError(`hadFrom: no thread ${threadId}`)
    const putUps = (short: number) => Math.max(0, Math.ceil(short / known.putUpStrandTenths))
    if (!known.lotsMatter) {
      const best = thread.freeStrandTenths
      return { threadId, strandTenths, lot: null, morePutUps: putUps(strandTenths - best), bestStrandTenths: best }
    }
    const bought = known.lotsStrandTenths.length
    let lot = -1
    thread.lotsStrandTenths.forEach((lotLeft, at) => {
      const tightest = thread.lotsStrandTenths[lot]
      if (lotLeft >= strandTenths && (tightest === undefined || lotLeft < tightest)) lot = at
    })
    const best = Math.max(...thread.lotsStrandTenths)
    if (lot >= 0) return { threadId, strandTenths, lot, morePutUps: 0, bestStrandTenths: best }
    const short = strandTenths - (thread.lotsStrandTenths[bought] as number)
    return { threadId, strandTenths, lot: bought, morePutUps: putUps(short), bestStrandTenths: best }
  })
}

/** What put-ups bought more would take off the limit; infinite where one of the threads is not bought. */
export function costOfMore(world: ChoiceWorld, had: readonly HadFrom[]): number {
  let cost = 0
  for (const { threadId, morePutUps } of had) {
    if (morePutUps === 0) continue
    const each = costOfPutUp(world.buying, world.threads.get(threadId) as ChoiceThread)
    if (each === null) return Number.POSITIVE_INFINITY
    cost += each * morePutUps
  }
  return cost
}

/**
 * The lot each thread of a list would be taken from out of what is left, buying what may still be bought.
 *
 * @returns null when some thread does not reach
 */
export function lotsFor(world: ChoiceWorld, list: ChoiceList, left: ThreadsLeft): Record<string, number> | null {
  const had = hadFrom(world, list, left)
  const spent = spentOn(world, boughtFor(world, left))
  if (spent + costOfMore(world, had) > mostBought(world.buying)) return null
  return Object.fromEntries(had.flatMap(({ threadId, lot }) => (lot === null ? [] : [[threadId, lot]])))
}

/** The same world with other limits to buying, and only the designs that could be had by themselves within them. */
export function withinLimit(world: ChoiceWorld, buying: Buying): ChoiceWorld {
  const limited = { ...world, buying }
  const untouched = threadsLeft(limited, [])
  const canBeHad = (list: ChoiceList) => lotsFor(limited, list, untouched) !== null
  const designs = world.designs.flatMap((design) => {
    const lists = design.lists.filter(canBeHad)
    return design.pin === 'out' || lists.length === 0 ? [] : [{ ...design, lists }]
  })
  return { ...limited, designs }
}
