import { compareExact } from '#lib/stock/batch'
import { type ChoiceWorld, hadFrom, threadsLeft } from './choice-world'

/** What buying so many put-ups of one thread alone makes stitchable, each design by itself. */
export type Unlock = {
  threadId: string
  /** Of one put-up; null where nobody said. */
  priceMinor: number | null
  isOneLot: boolean
  /** Fewest put-ups first; each with the designs that so many are the first to unlock. */
  steps: { putUps: number; designIds: string[] }[]
}

/**
 * By thread, what buying it alone unlocks: designs of which everything else is free already, each taken by itself. What unlocks most for
 * one put-up comes first, then what unlocks most in all.
 *
 * @param world  all designs that are asked about, whatever they lack
 */
export function unlocksByThread(world: ChoiceWorld): Unlock[] {
  const untouched = threadsLeft({ ...world, buying: { kind: 'nothing' } }, [])
  const byThread = new Map<string, Map<string, number>>()
  for (const { id, lists, pin } of world.designs) {
    if (pin === 'out') continue
    const lacking = lists.map((list) => hadFrom(world, list, untouched).filter(({ morePutUps }) => morePutUps > 0))
    if (lacking.some(({ length }) => length === 0)) continue
    for (const [only, ...others] of lacking) {
      if (!only || others.length > 0) continue
      const own = byThread.get(only.threadId) ?? new Map<string, number>()
      own.set(id, Math.min(own.get(id) ?? only.morePutUps, only.morePutUps))
      byThread.set(only.threadId, own)
    }
  }
  const countTo = ({ steps }: Unlock, putUps: number) =>
    steps.filter((step) => step.putUps <= putUps).reduce((sum, { designIds }) => sum + designIds.length, 0)
  return [...byThread]
    .map(([threadId, designs]): Unlock => {
      const thread = world.threads.get(threadId)
      const steps = [...new Set(designs.values())]
        .sort((a, b) => a - b)
        .map((putUps) => ({
          putUps,
          designIds: [...designs].flatMap(([designId, wanted]) => (wanted === putUps ? [designId] : [])).sort(compareExact),
        }))
      return { threadId, priceMinor: thread?.priceMinor ?? null, isOneLot: thread?.lotsMatter ?? false, steps }
    })
    .sort(
      (a, b) =>
        countTo(b, 1) - countTo(a, 1) ||
        countTo(b, Number.POSITIVE_INFINITY) - countTo(a, Number.POSITIVE_INFINITY) ||
        compareExact(a.threadId, b.threadId),
    )
}
