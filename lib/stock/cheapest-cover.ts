/** One thing on sale: a put-up, or a pack of several. `holds` in whatever the need is counted in, above nought. */
export type CoverItem = { holds: number; costMinor: number; putUps: number }

/** How many of each, in the order of the items, and what that comes to. */
export type Cover = { counts: number[]; holds: number; costMinor: number; putUps: number }

type Sum = { costMinor: number; putUps: number; packs: number }

const mostItems = 40
/** So that a cost times a length, as the bound takes them, stays a whole number that a double holds exactly. */
export const mostHeld = 1_000_000_000
export const mostCostMinor = 1_000_000

const bySum = (a: Sum, b: Sum): number => a.costMinor - b.costMinor || a.putUps - b.putUps || a.packs - b.packs

/**
 * The cheapest way to have at least `need`: of those that cost the same the fewest put-ups, then the least over, then the fewest packs;
 * still alike, the one with more of what is cheaper for what it holds.
 *
 * An unbounded covering knapsack, solved exactly: items from the cheapest for what they hold, as many as would do down to none of each,
 * given up where even the rest at the next item's rate would cost more than the best so far; a state (item, what is still wanted) that
 * was reached as cheaply before is not gone into again. A few items of one need take some dozens of steps; the worst is as many states as
 * there are different remainders (eight items of nearly one rate, 500 put-ups: some tenths of a second).
 *
 * @throws {RangeError} if there is no item or are over 40, the need or what an item holds is not a whole number above nought, or a cost is
 *   negative.
 */
export function cheapestCover(need: number, items: readonly CoverItem[]): Cover {
  if (items.length === 0 || items.length > mostItems) throw new RangeError(`cheapestCover: ${items.length} items`)
  if (!(Number.isSafeInteger(need) && need > 0 && need <= mostHeld)) throw new RangeError(`cheapestCover: need ${need}`)
  for (const { holds, costMinor, putUps } of items) {
    const isWhole = [holds, costMinor, putUps].every((figure) => Number.isSafeInteger(figure) && figure >= 0)
    if (!isWhole || holds === 0 || holds > mostHeld || costMinor > mostCostMinor)
      throw new RangeError(`cheapestCover: ${putUps} put-ups hold ${holds} for ${costMinor}`)
  }
  const order = items
    .map((item, at) => ({ item, at }))
    .sort(
      ({ item: a, at }, { item: b, at: other }) =>
        a.costMinor * b.holds - b.costMinor * a.holds ||
        a.putUps * b.holds - b.putUps * a.holds ||
        b.holds - a.holds ||
        at - other,
    )
  /** From each item on: what one put-up holds at most. */
  const perPutUp: number[] = []
  for (let turn = order.length - 1; turn >= 0; turn--) {
    const { holds, putUps } = (order[turn] as (typeof order)[number]).item
    perPutUp[turn] = Math.max(perPutUp[turn + 1] ?? 0, putUps === 0 ? mostHeld : holds / putUps)
  }

  const counts = items.map(() => 0)
  let best: (Sum & { over: number; counts: number[] }) | null = null
  const reached = new Map<number, Sum>()

  const isBetter = (sum: Sum, over: number): boolean =>
    best === null ||
    (sum.costMinor - best.costMinor || sum.putUps - best.putUps || over - best.over || sum.packs - best.packs) < 0
  /** By how much even the items left, at their best rate, would cost more than the best so far; scaled. */
  const dearerBy = (turn: number, rest: number, sum: Sum): number => {
    if (best === null) return Number.NEGATIVE_INFINITY
    const { holds, costMinor } = (order[turn] as (typeof order)[number]).item
    return (sum.costMinor - best.costMinor) * holds + Math.max(0, rest) * costMinor
  }
  const from = (turn: number, rest: number, sum: Sum): void => {
    if (rest <= 0) {
      if (isBetter(sum, -rest)) best = { ...sum, over: -rest, counts: [...counts] }
      return
    }
    if (turn === order.length) return
    const dearer = dearerBy(turn, rest, sum)
    if (dearer > 0) return
    const putUpsAtLeast = sum.putUps + Math.ceil(rest / (perPutUp[turn] as number) - 1e-9)
    if (dearer === 0 && best !== null && putUpsAtLeast > best.putUps) return
    const state = rest * order.length + turn
    const before = reached.get(state)
    if (before && bySum(before, sum) <= 0) return
    reached.set(state, sum)
    const { item, at } = order[turn] as (typeof order)[number]
    for (let count = Math.ceil(rest / item.holds); count >= 0; count--) {
      counts[at] = count
      const left = rest - count * item.holds
      const after = {
        costMinor: sum.costMinor + count * item.costMinor,
        putUps: sum.putUps + count * item.putUps,
        packs: sum.packs + count,
      }
      from(turn + 1, left, after)
      // What comes next is no cheaper for what it holds, so with fewer of this it only gets dearer.
      if (turn + 1 < order.length && dearerBy(turn + 1, left, after) > 0 && left > 0) break
    }
    counts[at] = 0
  }
  from(0, need, { costMinor: 0, putUps: 0, packs: 0 })
  const found = best as unknown as Sum & { over: number; counts: number[] }
  return { counts: found.counts, holds: need + found.over, costMinor: found.costMinor, putUps: found.putUps }
}
