/** The drawers a thing may be in without having changed drawer: the one it is in, or those it falls in when it has just come. */
export type DrawerSpan = { first: number; last: number }

export type LeastMoves = {
  /** How many end outside their span. */
  moved: number
  /** How many drawers those go on or back, all together. */
  distance: number
  /** By thing, the drawer it ends in. */
  drawerOf: number[]
}

/** How many drawers a drawer is from a span. */
export const beyond = ({ first, last }: DrawerSpan, drawer: number): number => Math.max(0, first - drawer, drawer - last)

/**
 * Share things that keep their order among drawers of limited room, so that as few as can be change drawer: exact, by trying for each
 * drawer every number of things that come before it (a window slides over them, so the work is things × drawers). Of plans that
 * change equally many the one that takes them the shortest way, and of those the one that puts things further on.
 *
 * @param spans        by thing, in the order they are to be kept
 * @param rooms        by drawer, how many it takes
 * @param isForwardOnly  nothing may go to a drawer before its span
 * @returns            null when they do not fit
 */
export function leastMoves(spans: readonly DrawerSpan[], rooms: readonly number[], isForwardOnly: boolean): LeastMoves | null {
  const count = spans.length
  /** What one change weighs: more than all ways together. */
  const change = count * rooms.length + 1
  // least[i]: what the first i things cost at least in the drawers so far.
  let least = new Float64Array(count + 1).fill(Number.POSITIVE_INFINITY)
  least[0] = 0
  const startsOf: Int32Array[] = []
  const window = new Int32Array(count + 1)
  const scores = new Float64Array(count + 1)
  for (const [drawer, room] of rooms.entries()) {
    const next = new Float64Array(count + 1)
    const starts = new Int32Array(count + 1)
    let [head, tail, from, costHere] = [0, 0, 0, 0]
    for (let i = 0; i <= count; i++) {
      const span = spans[i - 1]
      if (span) {
        const away = beyond(span, drawer)
        costHere += away > 0 ? change + away : 0
        if (isForwardOnly && span.first > drawer) from = i
      }
      const score = (least[i] as number) - costHere
      while (tail > head && (scores[tail - 1] as number) > score) tail--
      window[tail] = i
      scores[tail] = score
      tail++
      while ((window[head] as number) < Math.max(from, i - room)) head++
      starts[i] = window[head] as number
      next[i] = (scores[head] as number) + costHere
    }
    startsOf.push(starts)
    least = next
  }
  const cost = least[count] as number
  if (!Number.isFinite(cost)) return null
  const drawerOf = new Array<number>(count)
  let end = count
  for (let drawer = rooms.length - 1; drawer >= 0; drawer--) {
    const start = (startsOf[drawer] as Int32Array)[end] as number
    drawerOf.fill(drawer, start, end)
    end = start
  }
  return { moved: Math.floor(cost / change), distance: cost % change, drawerOf }
}
