import { type ChoiceDesign, type ChoiceWorld, hadFrom, type Placed, type ThreadsLeft } from './choice-world'

/** A thread that the chosen designs leave too little of for one more, and which of them take it. Lengths in strand tenths. */
export type ThreadTaken = {
  threadId: string
  needStrandTenths: number
  /** What is left; of the fullest lot where lots matter. */
  leftStrandTenths: number
  isOneLot: boolean
  /** Whole put-ups that would have to be bought beside what is. */
  morePutUps: number
  takenBy: { designId: string; strandTenths: number }[]
}

/** What each chosen design takes of each thread. */
export type Takers = ReadonlyMap<string, { designId: string; strandTenths: number }[]>

/** The chosen designs by thread, those that take most first. */
export function takersOf(world: ChoiceWorld, placed: readonly Placed[]): Takers {
  const designs = new Map(world.designs.map((design) => [design.id, design]))
  const takers = new Map<string, { designId: string; strandTenths: number }[]>()
  for (const { designId, listId } of placed) {
    for (const { threadId, strandTenths } of designs.get(designId)?.lists.find((list) => list.listId === listId)?.needs ?? []) {
      const own = takers.get(threadId) ?? []
      own.push({ designId, strandTenths })
      takers.set(threadId, own)
    }
  }
  for (const own of takers.values()) own.sort((a, b) => b.strandTenths - a.strandTenths)
  return takers
}

/**
 * The threads that keep a design out once the others are chosen: those of the list that lacks fewest put-ups. None when the thread would
 * reach.
 */
export function threadsTaken(world: ChoiceWorld, takers: Takers, left: ThreadsLeft, design: ChoiceDesign): ThreadTaken[] {
  const lacking = design.lists.map((list) =>
    hadFrom(world, list, left)
      .filter(({ morePutUps }) => morePutUps > 0)
      .map(
        ({ threadId, strandTenths, morePutUps, bestStrandTenths }): ThreadTaken => ({
          ...{ threadId, needStrandTenths: strandTenths, leftStrandTenths: bestStrandTenths, morePutUps },
          isOneLot: world.threads.get(threadId)?.lotsMatter ?? false,
          takenBy: takers.get(threadId) ?? [],
        }),
      ),
  )
  const putUps = (threads: readonly ThreadTaken[]) => threads.reduce((sum, { morePutUps }) => sum + morePutUps, 0)
  return lacking.sort((a, b) => putUps(a) - putUps(b))[0] ?? []
}
