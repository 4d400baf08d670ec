import type { ChoiceDesign, ChoiceWorld, Placed, ThreadsLeft } from './choice-world'

/** A thread that the chosen designs leave too little of for one more, and which of them take it. Lengths in strand tenths. */
export type ThreadTaken = {
  threadId: string
  needStrandTenths: number
  /** What is left; of the fullest lot where lots matter. */
  leftStrandTenths: number
  isOneLot: boolean
  takenBy: { designId: string; strandTenths: number }[]
}

/**
 * The threads that keep a design out once the others are chosen: those of the list that lacks fewest. None when the thread would reach.
 */
export function threadsTaken(
  world: ChoiceWorld,
  placed: readonly Placed[],
  left: ThreadsLeft,
  design: ChoiceDesign,
): ThreadTaken[] {
  const needOf = (one: Placed, threadId: string) =>
    world.designs
      .find(({ id }) => id === one.designId)
      ?.lists.find(({ listId }) => listId === one.listId)
      ?.needs.find((need) => need.threadId === threadId)?.strandTenths ?? 0
  const lacking = design.lists.map(({ needs }) =>
    needs.flatMap(({ threadId, strandTenths }): ThreadTaken[] => {
      const isOneLot = world.threads.get(threadId)?.lotsMatter ?? false
      const thread = left.get(threadId)
      const leftStrandTenths = isOneLot ? Math.max(0, ...(thread?.lotsStrandTenths ?? [])) : (thread?.freeStrandTenths ?? 0)
      if (leftStrandTenths >= strandTenths) return []
      const takenBy = placed
        .map((one) => ({ designId: one.designId, strandTenths: needOf(one, threadId) }))
        .filter((taken) => taken.strandTenths > 0)
        .sort((a, b) => b.strandTenths - a.strandTenths)
      return [{ threadId, needStrandTenths: strandTenths, leftStrandTenths, isOneLot, takenBy }]
    }),
  )
  return lacking.sort((a, b) => a.length - b.length)[0] ?? []
}
