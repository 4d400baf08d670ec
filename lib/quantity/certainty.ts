/** How a figure is known, best first. The weakest part of a sum marks the whole. */
export const certainties = ['measured', 'label', 'guess', 'estimated', 'assumed'] as const
export type Certainty = (typeof certainties)[number]

/** @returns the weakest of the given certainties; `measured` when there are none. */
export function weakestCertainty(known: Iterable<Certainty>): Certainty {
  let weakest = 0
  for (const certainty of known) weakest = Math.max(weakest, certainties.indexOf(certainty))
  return certainties[weakest] as Certainty
}
