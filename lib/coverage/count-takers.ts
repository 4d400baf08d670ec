import type { AskedDesigns } from './design-rows'
import { Shelves } from './shelves'
import { limitStride } from './stitch-limits'

/**
 * How many pieces take each of some designs, all of them counted in one sweep.
 *
 * A piece takes what lies below and to the left of its limits, upright or turned; what lies under both is not to count twice:
 *
 *   height                      The designs are gone through from the widest to the narrowest. A corner comes in when the
 *     │────┐ +1 turned          sweep is as narrow as its width; then it counts for every design no higher than it. So each
 *     │    │                    question is how many corners that came in are at least so high, which a tree of partial
 *     │────┼──────┐ +1 upright  sums over the heights answers in log h steps (P. M. Fenwick, "A New Data Structure for
 *     │ −1 │      │             Cumulative Frequency Tables", Software: Practice and Experience 24, 1994).
 *     └────┴──────┴── width
 *
 * @param taken.kind  which of the limits are meant, as `limitKinds` has them
 * @param into        by the designs' rows
 */
export function countTakers(
  taken: { limits: Int32Array; slots: readonly number[]; kind: number },
  { rows, widths, heights, tallest }: AskedDesigns,
  into: Uint16Array,
): void {
  const { limits, slots, kind } = taken
  const corners = new Shelves(widths[0] ?? 0, slots.length * 3)
  /** What is to be taken off again has its height below nought. */
  const cornerHeights = new Int32Array(slots.length * 3)
  slots.forEach((slot, place) => {
    const at = slot * limitStride + kind
    const [width, height] = [limits[at] as number, limits[at + 1] as number]
    const [turnedWidth, turnedHeight] = [limits[at + 2] as number, limits[at + 3] as number]
    const corner = place * 3
    cornerHeights[corner] = Math.min(height, tallest)
    cornerHeights[corner + 1] = Math.min(turnedHeight, tallest)
    cornerHeights[corner + 2] = -Math.min(height, turnedHeight, tallest)
    corners.put(corner, width)
    corners.put(corner + 1, turnedWidth)
    corners.put(corner + 2, Math.min(width, turnedWidth))
  })

  const sums = new Int32Array(tallest + 1)
  let shelf = corners.widest
  let count = 0
  for (let i = 0; i < rows.length; i++) {
    const [width, height] = [widths[i] as number, heights[i] as number]
    for (; shelf >= width; shelf--) {
      for (let corner = corners.firstOn(shelf); corner >= 0; corner = corners.after(corner)) {
        const signed = cornerHeights[corner] as number
        for (let at = Math.abs(signed); at > 0; at -= at & -at) sums[at] = (sums[at] as number) + Math.sign(signed)
      }
    }
    if (i === 0 || width !== widths[i - 1] || height !== heights[i - 1]) {
      count = 0
      for (let at = height; at <= tallest; at += at & -at) count += sums[at] as number
    }
    into[rows[i] as number] = count
  }
}
