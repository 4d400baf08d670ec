import { type BlockKind, Blocks } from './blocks'
import type { CutDirection, CutTree } from './cut-tree'

/** How much of a block may be lost within it, rising: first only what leaves nothing. Chosen by trial on sets of 8 to 20 pieces. */
const lossLevels = [0, 0.01, 0.02, 0.035, 0.05, 0.075, 0.1, 0.15, 0.25]

const yieldEvery = 100_000

type Sheet = { width: number; height: number }

/** A way to fill a sheet: its value, and the tree when it is wanted. */
export type Filled = { value: number; tree: () => CutTree }

/**
 * Fill a sheet with as much value as can be found, by building blocks that lose little within themselves: first none, then more and
 * more (after Wang, "Two algorithms for constrained two-dimensional cutting stock problems", Operations Research 31(3), 1983). Every
 * pair of blocks that goes on the sheet together is looked at as an answer, whatever it loses. Yields each better answer, and null between.
 *
 * @param mostBlocks  how many blocks may be built; the pairs looked at grow with its square
 */
export function* fillSheet(kinds: readonly BlockKind[], sheet: Sheet, mostBlocks: number): Generator<Filled | null, void> {
  const blocks = new Blocks(kinds)
  blocks.addWanted(sheet)
  const all = kinds.reduce((sum, { copies, value }) => sum + copies * value, 0)
  let best = 0
  for (let block = 0; block < blocks.size; block++) {
    if ((blocks.value[block] as number) <= best) continue
    best = blocks.value[block] as number
    yield { value: best, tree: () => blocks.tree(block, sheet.width, sheet.height) }
  }
  let looked = 0
  for (const loss of lossLevels) {
    // All pairs of which one at least is new at this level; at a new level, all pairs.
    for (let newest = 0; newest < blocks.size && blocks.size < mostBlocks; newest++) {
      for (let other = 0; other <= newest; other++) {
        if (++looked % yieldEvery === 0) yield null
        const width = (blocks.width[newest] as number) + (blocks.width[other] as number)
        const height = (blocks.height[newest] as number) + (blocks.height[other] as number)
        const isBeside = width <= sheet.width
        const isAbove = height <= sheet.height
        if ((!isBeside && !isAbove) || !blocks.areTogetherWithin(newest, other)) continue
        const value = (blocks.value[newest] as number) + (blocks.value[other] as number)
        const area = (blocks.area[newest] as number) + (blocks.area[other] as number)
        if (value > best) {
          best = value
          const direction: CutDirection = isBeside ? 'up' : 'across'
          yield { value, tree: () => blocks.pairTree(newest, other, direction, sheet) }
          if (best >= all) return
        }
        if (isBeside) {
          const high = Math.max(blocks.height[newest] as number, blocks.height[other] as number)
          if (area >= (1 - loss) * width * high) blocks.add(other, newest, 'up')
        }
        if (isAbove) {
          const wide = Math.max(blocks.width[newest] as number, blocks.width[other] as number)
          if (area >= (1 - loss) * wide * height) blocks.add(other, newest, 'across')
        }
        if (blocks.size >= mostBlocks) break
      }
    }
    if (blocks.size >= mostBlocks) return
  }
}
