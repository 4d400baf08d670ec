import { type CutDirection, type CutTree, free, offcutAreaOf, parted } from './cut-tree'
import { heightAt, widthAt } from './staircase'
import type { SubsetBoxes } from './subset-boxes'

/** A rectangle that stays whole when a choice is cut off; `strip` was cut off last, before it `before` stood. */
type Corner = { width: number; height: number; strip: number; direction: CutDirection | null; before: Corner | null }

const yieldEvery = 2_000

/**
 * The largest rectangle of a sheet that can stay whole while a choice is cut from the rest of it, for every choice.
 *
 * Seen from the rectangle that stays, every cut that comes near it takes a strip off, right across what is left, and the strip is cut
 * into some part of the choice; the strip need be no wider than that part's least width at the strip's length. So what can stay is
 * found strip by strip, and of two rectangles that can stay beside the same choice, one that is larger both ways serves every
 * strip that follows at least as well. Exact.
 *
 * ```
 *   ┌────────┬────┐
 *   │ stays  │ 1st│
 *   ├────────┤    │   1st strip: up, then 2nd: across, …
 *   │  2nd   │    │
 *   └────────┴────┘
 * ```
 *
 * Cost: every division of every choice once, times the rectangles kept of it (a handful).
 */
export class KeptCorners {
  readonly #boxes: SubsetBoxes
  readonly #sheet: { width: number; height: number }
  readonly #corners: Corner[][]
  readonly #rules: { gap: number; leastOffcut: number }

  constructor(boxes: SubsetBoxes, sheet: { width: number; height: number }, rules: { gap: number; leastOffcut: number }) {
    this.#boxes = boxes
    this.#sheet = sheet
    this.#rules = rules
    this.#corners = new Array<Corner[]>(boxes.choiceCount)
  }

  /** @param most  only for the choices within this one */
  *build(most: number = this.#boxes.choiceCount - 1): Generator<void> {
    const boxes = this.#boxes
    const { width, height } = this.#sheet
    this.#corners[0] = [{ width, height, strip: 0, direction: null, before: null }]
    let looked = 0
    for (const choice of boxes.within(most)) {
      if (choice === 0) continue
      const corners: Corner[] = []
      this.#corners[choice] = corners
      // What goes on the sheet in no way leaves no corner either.
      if (!boxes.fits(choice, width, height)) continue
      for (const strip of boxes.within(choice)) {
        if (strip === 0) continue
        if (++looked % yieldEvery === 0) yield
        const stairs = boxes.stairs(strip)
        for (const before of this.#corners[choice - strip] as Corner[]) {
          const wide = before.width - widthAt(stairs, before.height)
          if (wide >= 0) keepLarge(corners, { width: wide, height: before.height, strip, direction: 'up', before })
          const high = before.height - heightAt(stairs, before.width)
          if (high >= 0) keepLarge(corners, { width: before.width, height: high, strip, direction: 'across', before })
        }
      }
    }
  }

  /** The area of the largest offcut beside a choice, 0 where none is large enough to keep; null when the choice does not fit. */
  areaBeside(choice: number): number | null {
    const corner = this.#best(choice)
    return corner && offcutAreaOf(corner.width, corner.height, this.#rules)
  }

  /** The tree that keeps it; `cutStrip` says how a strip is cut into its part. */
  tree(choice: number, cutStrip: (choice: number, width: number, height: number) => CutTree): CutTree {
    const corner = this.#best(choice)
    if (!corner) throw new RangeError(`KeptCorners.tree: choice ${choice} does not fit`)
    let tree: CutTree = free
    for (let at: Corner = corner; at.before; at = at.before) {
      const { before, strip, direction } = at
      tree =
        direction === 'up'
          ? parted('up', before.width - at.width, before.width, cutStrip(strip, before.width - at.width, before.height), tree)
          : parted(
              'across',
              before.height - at.height,
              before.height,
              cutStrip(strip, before.width, before.height - at.height),
              tree,
            )
    }
    return tree
  }

  #best(choice: number): Corner | null {
    let best: Corner | null = null
    for (const corner of this.#corners[choice] ?? [])
      if (
        best === null ||
        offcutAreaOf(corner.width, corner.height, this.#rules) > offcutAreaOf(best.width, best.height, this.#rules)
      )
        best = corner
    return best
  }
}

function keepLarge(corners: Corner[], corner: Corner): void {
  for (const known of corners) if (known.width >= corner.width && known.height >= corner.height) return
  let kept = 0
  for (const known of corners) if (known.width > corner.width || known.height > corner.height) corners[kept++] = known
  corners.length = kept
  corners.push(corner)
}
