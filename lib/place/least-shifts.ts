import { beyond, type DrawerSpan } from './least-moves'

type LeastShifts = {
  /** By thing, the drawer it ends in. */
  drawerOf: number[]
  /** By thing, the compartment it ends in. */
  placeOf: string[]
  /** How many end outside their span, and how many drawers those go on or back, all together. */
  moved: number
  distance: number
  /** How many stay in their drawer and end in another compartment of it. */
  shifted: number
}

type Places = readonly (readonly string[])[]

/**
 * Share things that keep their order among the compartments of drawers, one thing to each: as few as can be change drawer, those the
 * shortest way; then as few as can be shift inside the drawer they stay in. Exact, by trying for each thing every compartment, all drawers'
 * compartments in one row. Of plans that are equal in all three the one that puts things further on is taken; inside each drawer gaps are
 * then spread as evenly as that leaves them.
 *
 * @param spans   by thing, in the order they are to be kept
 * @param at      by thing, the compartment it is in; null when it has just come, or it was in none
 * @param places  by drawer, its compartments in order; the same again where one takes more
 * @returns       null when they do not fit
 */
export function leastShifts(
  spans: readonly DrawerSpan[],
  at: readonly (string | null)[],
  places: Places,
  isForwardOnly: boolean,
): LeastShifts | null {
  const count = spans.length
  // A step on or back weighs more than all shifts, a change of drawer more than all steps.
  const step = count + 1
  const change = (count * places.length + 1) * step
  const row = places.flatMap((names, drawer) => names.map((name) => ({ drawer, name })))
  const width = row.length + 1
  const isTaken = new Uint8Array(count * width)
  let least = new Float64Array(width)
  for (let item = 0; item < count; item++) {
    const { first, last } = spans[item] as DrawerSpan
    const own = at[item]
    const next = new Float64Array(width).fill(Number.POSITIVE_INFINITY)
    for (let end = 1; end < width; end++) {
      const { drawer, name } = row[end - 1] as { drawer: number; name: string }
      const away = beyond({ first, last }, drawer)
      const cost = away > 0 ? change + away * step : own !== null && own !== name ? 1 : 0
      const taken = isForwardOnly && drawer < first ? Number.POSITIVE_INFINITY : (least[end - 1] as number) + cost
      const passed = next[end - 1] as number
      next[end] = Math.min(taken, passed)
      isTaken[item * width + end] = taken <= passed ? 1 : 0
    }
    least = next
  }
  const cost = least[width - 1] as number
  if (!Number.isFinite(cost)) return null
  const drawerOf = new Array<number>(count)
  for (let item = count - 1, end = width - 1; item >= 0; item--, end--) {
    while (isTaken[item * width + end] === 0) end--
    drawerOf[item] = (row[end - 1] as { drawer: number }).drawer
  }
  const spread = places.flatMap((names, drawer) => {
    const items = [...drawerOf.keys()].filter((item) => drawerOf[item] === drawer)
    return spreadInside(
      items.map((item) => {
        const span = spans[item] as DrawerSpan
        return beyond(span, drawer) > 0 ? null : (at[item] ?? null)
      }),
      names,
    )
  })
  return {
    ...{ drawerOf, placeOf: spread, moved: Math.floor(cost / change) },
    distance: Math.floor((cost % change) / step),
    shifted: cost % step,
  }
}

/**
 * One drawer's things among its compartments, in order: as few as can be shift, and each as near as that lets it to where it would be
 * with the gaps spread evenly.
 *
 * @param at  by thing, the compartment it is in now; null when it comes from elsewhere
 */
function spreadInside(at: readonly (string | null)[], names: readonly string[]): string[] {
  const width = names.length + 1
  const shift = at.length * width + 1
  const isTaken = new Uint8Array(at.length * width)
  let least = new Float64Array(width)
  for (const [item, own] of at.entries()) {
    const even = evenPlace(item, at.length, names.length)
    const next = new Float64Array(width).fill(Number.POSITIVE_INFINITY)
    for (let end = 1; end < width; end++) {
      const cost = (own !== null && own !== names[end - 1] ? shift : 0) + Math.abs(end - 1 - even)
      const taken = (least[end - 1] as number) + cost
      const passed = next[end - 1] as number
      next[end] = Math.min(taken, passed)
      isTaken[item * width + end] = taken < passed ? 1 : 0
    }
    least = next
  }
  const placeOf = new Array<string>(at.length)
  for (let item = at.length - 1, end = width - 1; item >= 0; item--, end--) {
    while (isTaken[item * width + end] === 0) end--
    placeOf[item] = names[end - 1] as string
  }
  return placeOf
}

/** Which of a drawer's compartments, counted from 0, a thing is in when the gaps among them are spread evenly. */
export const evenPlace = (turn: number, things: number, compartments: number): number =>
  Math.floor((turn * compartments) / things)
