import type { Lab } from '#lib/colour/lab'
import { leastContrast } from '#lib/thread/substitution'

export type ContrastThread = { threadId: string; lab: Lab | null }

/** How the threads of a list show on a cloth. */
export type ClothContrast =
  | { kind: 'cloth-not-known' }
  | {
      kind: 'judged'
      /** Hard to see: nearer to the cloth in lightness than `least`; the faintest first, equal ones in the order given. */
      faint: { threadId: string; gap: number }[]
      /** Without a recorded colour: not judged. */
      notKnownIds: string[]
      judgedCount: number
      least: number
    }

/** By lightness alone, with the figure that swaps are judged by; a design meant tone on tone will have all its threads here. */
export function judgeClothContrast(cloth: Lab | null, threads: readonly ContrastThread[]): ClothContrast {
  if (cloth === null) return { kind: 'cloth-not-known' }
  const faint: { threadId: string; gap: number }[] = []
  const notKnownIds: string[] = []
  for (const { threadId, lab } of threads) {
    if (lab === null) {
      notKnownIds.push(threadId)
      continue
    }
    const gap = Math.abs(lab.L - cloth.L)
    if (gap < leastContrast) faint.push({ threadId, gap })
  }
  faint.sort((a, b) => a.gap - b.gap)
  return { kind: 'judged', faint, notKnownIds, judgedCount: threads.length - notKnownIds.length, least: leastContrast }
}
