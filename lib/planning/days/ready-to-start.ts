export type StartingWork = {
  id: string
  /** What it needs of each thread, for all its copies, by the thread it is worked in; null without a thread list. */
  needs: readonly { threadId: string; strandTenths: number }[] | null
  /** Its cloth is there, or a piece fits. */
  hasCloth: boolean
}

/**
 * Which works could be started today: every thread is promised to it or free, and there is cloth. Each is asked by itself: two that want
 * the same skein are both ready.
 *
 * @param promisedTo  of a thread, what is promised to a work
 * @param freeOf      of a thread, what is free of promises
 */
export const findReady = <Work extends StartingWork>(
  works: readonly Work[],
  promisedTo: (workId: string, threadId: string) => number,
  freeOf: (threadId: string) => number,
): Work[] =>
  works.filter(
    ({ id, needs, hasCloth }) =>
      hasCloth &&
      needs !== null &&
      needs.length > 0 &&
      // A tenth of a millimetre may be lost where lengths are rounded.
      needs.every(({ threadId, strandTenths }) => promisedTo(id, threadId) + freeOf(threadId) + 1 >= strandTenths),
  )
