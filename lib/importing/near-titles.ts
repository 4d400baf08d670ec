import { textKey } from '#lib/quantity/text-key'

/** At least this much alike (0 to 1) to be worth suggesting. Chosen by trial: one wrong or missing word of four stays above it. */
const leastAlike = 0.45

/** Up to three titles most like the one given, by the letter pairs they share (Dice's coefficient), the best first. */
export function nearTitles(title: string, titles: Iterable<string>): string[] {
  const wanted = pairs(title)
  const scored = [...new Set(titles)].map((candidate) => ({ candidate, alike: alikeness(wanted, pairs(candidate)) }))
  return scored
    .filter(({ alike }) => alike >= leastAlike)
    .sort((left, right) => right.alike - left.alike || (left.candidate < right.candidate ? -1 : 1))
    .slice(0, 3)
    .map(({ candidate }) => candidate)
}

function pairs(text: string): Set<string> {
  const key = ` ${textKey(text)} `
  const found = new Set<string>()
  for (let at = 0; at + 1 < key.length; at++) found.add(key.slice(at, at + 2))
  return found
}

function alikeness(left: Set<string>, right: Set<string>): number {
  let shared = 0
  for (const pair of left) if (right.has(pair)) shared++
  return (2 * shared) / (left.size + right.size)
}
