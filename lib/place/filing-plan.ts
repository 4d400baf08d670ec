import { evenPlace } from './least-shifts'

/** Where one thing goes in a drawer: the compartment counted from 1. */
export type Slot<Item> = { compartment: number; item: Item }

export type FilingPlan<Item> = {
  /** How many go in each drawer but the last. */
  perDrawer: number
  drawers: Slot<Item>[][]
  /** How many drawers there would be with no gap left at all. */
  drawersPacked: number
}

/**
 * Lay things out afresh, in the order handed in: each drawer filled to a share of its compartments, the gaps spread evenly among them, so
 * that what comes later finds room near where it belongs.
 *
 * @param percent  how full, 1 to 100; what it comes to is rounded down to whole compartments, and is at least one.
 * @throws {RangeError} if there is no compartment, or the share is not from 1 to 100.
 */
export function planFiling<Item>(
  items: readonly Item[],
  { compartments, percent }: { compartments: number; percent: number },
): FilingPlan<Item> {
  if (!Number.isSafeInteger(compartments) || compartments < 1) throw new RangeError(`planFiling: ${compartments} compartments`)
  if (!Number.isSafeInteger(percent) || percent < 1 || percent > 100) throw new RangeError(`planFiling: ${percent} %`)
  const perDrawer = shareOf(compartments, percent)
  const drawers: Slot<Item>[][] = []
  for (let from = 0; from < items.length; from += perDrawer) {
    drawers.push(
      items.slice(from, from + perDrawer).map((item, turn) => ({
        compartment: evenPlace(turn, perDrawer, compartments) + 1,
        item,
      })),
    )
  }
  return { perDrawer, drawers, drawersPacked: Math.ceil(items.length / compartments) }
}

/** How many compartments a share of them is: rounded down, and at least one. */
export const shareOf = (compartments: number, percent: number): number => Math.max(1, Math.floor((compartments * percent) / 100))
