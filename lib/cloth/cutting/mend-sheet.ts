import type { CutProblem, Sheet, Way } from './cut-problem'
import { type CutTree, countWanted, renumbered } from './cut-tree'
import { SubsetBoxes } from './subset-boxes'

/** Pieces in a part that is cut again, and with what was left out: a hundredth of a second or two. */
const mostInPart = 7
const mostInAll = 9

type Part = { width: number; height: number; tree: CutTree; replace: (tree: CutTree) => CutTree }

/**
 * Take a part of one sheet, from two to seven pieces, and cut it again with some of what was left out, for the most value that goes into
 * its rectangle. Null when nothing was left out, or the part is as good as it can be.
 *
 * @returns all the trees, with the part replaced
 */
export function mendSheet(problem: CutProblem, trees: readonly CutTree[], random: () => number): CutTree[] | null {
  const cut = trees.reduce<number[]>((counts, tree) => countWanted(tree, counts), [])
  const left = problem.wanted.flatMap(({ copies }, index) =>
    Array.from({ length: Math.min(mostInAll, copies - (cut[index] ?? 0)) }, () => index),
  )
  if (left.length === 0) return null
  const at = Math.floor(random() * trees.length)
  const sheet = problem.sheets[at] as Sheet
  const parts = [...partsOf(trees[at] as CutTree, sheet.width, sheet.height, (tree) => tree)].filter(({ tree }) => {
    const many = total(countWanted(tree, []))
    return many <= mostInPart && (many >= 2 || (many <= 1 && tree.kind === 'cut'))
  })
  const part = parts[Math.floor(random() * parts.length)]
  if (!part) return null
  const inPart = countWanted(part.tree, [])
  const room = mostInAll - total(inPart)
  const counts = [...inPart]
  const waiting = [...left]
  for (let more = 0; more < room && waiting.length > 0; more++) {
    const [index] = waiting.splice(Math.floor(random() * waiting.length), 1)
    counts[index as number] = (counts[index as number] ?? 0) + 1
  }
  const indexes = [...counts.keys()].filter((index) => (counts[index] ?? 0) > 0)
  const waysOf = (index: number): readonly Way[] => problem.cloths[sheet.clothIndex]?.ways[index] ?? []
  const boxes = new SubsetBoxes(
    indexes.map((index) => ({ copies: counts[index] as number, ways: waysOf(index) })),
    part,
  )
  for (const _ of boxes.build());
  const valueOfChoice = (choice: number) =>
    indexes.reduce((sum, index, kind) => sum + (problem.wanted[index]?.value ?? 0) * boxes.copiesIn(choice, kind), 0)
  let best = 0
  let bestValue = indexes.reduce((sum, index) => sum + (problem.wanted[index]?.value ?? 0) * (inPart[index] ?? 0), 0)
  for (let choice = 1; choice < boxes.choiceCount; choice++) {
    const value = valueOfChoice(choice)
    if (value <= bestValue || !boxes.fits(choice, part.width, part.height)) continue
    best = choice
    bestValue = value
  }
  if (best === 0) return null
  const mended = part.replace(renumbered(boxes.tree(best, part.width, part.height), indexes))
  return trees.map((tree, other) => (other === at ? mended : tree))
}

const total = (counts: readonly number[]): number => counts.reduce((sum, many) => sum + (many ?? 0), 0)

/** Every rectangle of a tree, the whole first. */
function* partsOf(tree: CutTree, width: number, height: number, replace: (tree: CutTree) => CutTree): Generator<Part> {
  yield { tree, width, height, replace }
  if (tree.kind !== 'cut') return
  const { direction, at, first, second } = tree
  const isUp = direction === 'up'
  yield* partsOf(first, isUp ? at : width, isUp ? height : at, (mended) => replace({ ...tree, first: mended }))
  yield* partsOf(second, isUp ? width - at : width, isUp ? height : height - at, (mended) => replace({ ...tree, second: mended }))
}
