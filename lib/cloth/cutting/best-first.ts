import { type BlockKind, Blocks } from './blocks'
import type { CutDirection } from './cut-tree'
import type { Filled } from './fill-sheet'
import type { Unlimited } from './unlimited'

const yieldEvery = 20_000

type Sheet = { width: number; height: number }

/** Blocks by the most value a sheet with them could have, largest first; a binary heap. */
class Waiting {
  readonly #blocks: number[] = []
  readonly #bounds: number[] = []

  get most(): number {
    return this.#bounds[0] ?? Number.NEGATIVE_INFINITY
  }

  push(block: number, bound: number): void {
    const [blocks, bounds] = [this.#blocks, this.#bounds]
    let at = blocks.push(block) - 1
    bounds.push(bound)
    while (at > 0) {
      const parent = (at - 1) >> 1
      if ((bounds[parent] as number) >= bound) break
      blocks[at] = blocks[parent] as number
      bounds[at] = bounds[parent] as number
      at = parent
    }
    blocks[at] = block
    bounds[at] = bound
  }

  pop(): number | null {
    const [blocks, bounds] = [this.#blocks, this.#bounds]
    const top = blocks[0]
    if (top === undefined) return null
    const block = blocks.pop() as number
    const bound = bounds.pop() as number
    if (blocks.length === 0) return top
    let at = 0
    for (;;) {
      let child = 2 * at + 1
      if (child >= blocks.length) break
      if (child + 1 < blocks.length && (bounds[child + 1] as number) > (bounds[child] as number)) child++
      if ((bounds[child] as number) <= bound) break
      blocks[at] = blocks[child] as number
      bounds[at] = bounds[child] as number
      at = child
    }
    blocks[at] = block
    bounds[at] = bound
    return top
  }
}

/**
 * The most value from one sheet, with copies limited, to a proof: blocks are taken up in the order of what a sheet with them could at most be
 * worth, and set together with all taken up before (Viswanathan and Bagchi 1993, after Wang 1983). When nothing that waits could be
 * worth more than the best found, that is the most.
 *
 * Yields each better answer with the bound as it then stands, and every so often the bound alone. Ends, proved, with the bound at the
 * best; or unproved when `mostBlocks` are built.
 *
 * @param known  the value of a plan known already: only better ones are looked for
 */
export function* bestFirst(
  kinds: readonly BlockKind[],
  sheet: Sheet,
  unlimited: Unlimited,
  { known, mostBlocks }: { known: number; mostBlocks: number },
): Generator<{ bound: number; better: Filled | null }, { bound: number; isProved: boolean }> {
  const blocks = new Blocks(kinds)
  const waiting = new Waiting()
  const taken: number[] = []
  let best = known
  let looked = 0
  const boundOf = (block: number) =>
    (blocks.value[block] as number) + unlimited.aroundBlock(blocks.width[block] as number, blocks.height[block] as number, sheet)
  const filled = (block: number): Filled => ({
    value: blocks.value[block] as number,
    tree: () => blocks.tree(block, sheet.width, sheet.height),
  })
  blocks.addWanted(sheet)
  for (let block = 0; block < blocks.size; block++) {
    waiting.push(block, boundOf(block))
    if ((blocks.value[block] as number) <= best) continue
    best = blocks.value[block] as number
    yield { bound: unlimited.valueOf(sheet.width, sheet.height), better: filled(block) }
  }
  while (waiting.most > best) {
    const { most: bound } = waiting
    const newest = waiting.pop() as number
    taken.push(newest)
    for (const other of taken) {
      if (++looked % yieldEvery === 0) yield { bound, better: null }
      if (!blocks.areTogetherWithin(newest, other)) continue
      const isBeside = (blocks.width[newest] as number) + (blocks.width[other] as number) <= sheet.width
      const isAbove = (blocks.height[newest] as number) + (blocks.height[other] as number) <= sheet.height
      for (const direction of ['up', 'across'] as const satisfies CutDirection[]) {
        if (!(direction === 'up' ? isBeside : isAbove)) continue
        const block = blocks.size
        if (!blocks.add(other, newest, direction)) continue
        const most = boundOf(block)
        if (most > best) waiting.push(block, most)
        if ((blocks.value[block] as number) <= best) continue
        best = blocks.value[block] as number
        yield { bound: Math.max(bound, best), better: filled(block) }
      }
    }
    if (blocks.size >= mostBlocks && waiting.most > best) return { bound: waiting.most, isProved: false }
  }
  return { bound: best, isProved: true }
}
