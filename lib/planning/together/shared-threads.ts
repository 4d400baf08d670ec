import { compareExact } from '#lib/stock/batch'

/** A design that may be kitted, with the threads its list names. */
export type ThreadsOfDesign = { designId: string; threadIds: readonly string[] }

/** Two designs kitted at once: what both need is pulled once and put back once. */
export type KitPair = {
  designIds: [string, string]
  sharedThreadIds: string[]
  /** Threads to pull for both at once; one after the other it would be as many more as are shared. */
  pulls: number
  pullsSaved: number
  /** All the threads of one are in the other: that one comes first in `designIds`. */
  isCovered: boolean
}

/**
 * Which two designs to kit at once: pairs by the threads they share, those first of which one has every colour of the other, then those
 * that save most pulls. Pairs that share nothing are left out.
 *
 * O(n² + the threads they share); 400 designs are some 80,000 pairs.
 */
export function kitPairs(designs: readonly ThreadsOfDesign[]): KitPair[] {
  const sets = designs.map(({ designId, threadIds }) => ({ designId, threads: new Set(threadIds) }))
  const pairs: KitPair[] = []
  sets.forEach((one, at) => {
    for (const other of sets.slice(at + 1)) {
      if (other.designId === one.designId) continue
      const [small, large] =
        one.threads.size < other.threads.size ||
        (one.threads.size === other.threads.size && compareExact(one.designId, other.designId) < 0)
          ? [one, other]
          : [other, one]
      const sharedThreadIds = [...small.threads].filter((threadId) => large.threads.has(threadId))
      if (sharedThreadIds.length === 0) continue
      const pullsSaved = sharedThreadIds.length
      pairs.push({
        designIds: [small.designId, large.designId],
        sharedThreadIds,
        ...{ pulls: small.threads.size + large.threads.size - pullsSaved, pullsSaved },
        isCovered: pullsSaved === small.threads.size,
      })
    }
  })
  return pairs.sort(
    (a, b) =>
      Number(b.isCovered) - Number(a.isCovered) ||
      b.pullsSaved - a.pullsSaved ||
      compareExact(a.designIds[0], b.designIds[0]) ||
      compareExact(a.designIds[1], b.designIds[1]),
  )
}
