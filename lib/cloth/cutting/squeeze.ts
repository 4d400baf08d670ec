import type { CutProblem, Sheet } from './cut-problem'
import { type CutDirection, type CutTree, free, parted } from './cut-tree'
import { fillSheet } from './fill-sheet'

const blocksBuilt = 1_500
/** Halvings of what is left to gain: down to a hundredth of it. */
const halvings = 7

/**
 * Cut all that is wanted from as short a part of one sheet as it will go, first of its height, then of its width, so that the rest stays whole. A
 * height that has worked is shortened by halves, and never found to be the least there is.
 */
export function* squeeze(problem: CutProblem): Generator<{ trees: CutTree[] } | null, { trees: CutTree[] } | null> {
  const sheet = problem.sheets[0] as Sheet
  const kinds = problem.wanted.map(({ copies, value }, index) => ({
    ...{ index, copies, value },
    ways: problem.cloths[0]?.ways[index] ?? [],
  }))
  const all = problem.wanted.reduce((sum, { copies, value }) => sum + copies * value, 0)
  const area = kinds.reduce(
    (sum, { copies, ways }) => sum + copies * Math.min(...ways.map(({ width, height }) => width * height)),
    0,
  )
  for (const direction of ['across', 'up'] as const satisfies CutDirection[]) {
    const whole = direction === 'across' ? sheet.height : sheet.width
    let works = whole
    let fails = Math.ceil(area / (direction === 'across' ? sheet.width : sheet.height)) - 1
    for (let halving = 0; halving < halvings && works - fails > 1; halving++) {
      const length = Math.floor((works + fails) / 2)
      const part = direction === 'across' ? { width: sheet.width, height: length } : { width: length, height: sheet.height }
      let tree: CutTree | null = null
      for (const filled of fillSheet(kinds, part, blocksBuilt)) {
        if (!filled) yield null
        else if (filled.value === all) tree = filled.tree()
      }
      if (tree === null) fails = length
      else {
        works = length
        yield { trees: [parted(direction, length, whole, tree, free)] }
      }
    }
  }
  return null
}
