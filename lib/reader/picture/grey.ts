/** A picture in greys, a byte a pixel, 0 black to 255 white, rows from the top. */
export type Grey = { width: number; height: number; data: Uint8Array }

export const blankGrey = (width: number, height: number, shade = 255): Grey => ({
  width,
  height,
  data: new Uint8Array(width * height).fill(shade),
})

/** The picture at an integer fraction of its size, each pixel the mean of those it stands for. */
export function shrunk({ width, height, data }: Grey, by: number): Grey {
  const [across, down] = [Math.max(1, Math.floor(width / by)), Math.max(1, Math.floor(height / by))]
  const small = new Uint8Array(across * down)
  for (let y = 0; y < down; y++) {
    for (let x = 0; x < across; x++) {
      let sum = 0
      let count = 0
      for (let row = y * by; row < Math.min(height, (y + 1) * by); row++) {
        const at = row * width
        for (let column = x * by; column < Math.min(width, (x + 1) * by); column++) {
          sum += data[at + column] as number
          count++
        }
      }
      small[y * across + x] = sum / count
    }
  }
  return { width: across, height: down, data: small }
}

/**
 * The shade that parts dark from light best.
 *
 * @see Nobuyuki Otsu, "A threshold selection method from gray-level histograms", IEEE Transactions on Systems, Man, and Cybernetics 9 (1979)
 */
export function otsuShade({ data }: Grey): number {
  const counts = new Float64Array(256)
  for (const shade of data) counts[shade] = (counts[shade] as number) + 1
  let total = 0
  let sum = 0
  for (const [shade, count] of counts.entries()) {
    total += count
    sum += shade * count
  }
  let below = 0
  let sumBelow = 0
  let best = 127
  let bestBetween = -1
  for (const [shade, count] of counts.entries()) {
    below += count
    sumBelow += shade * count
    if (below === 0 || below === total) continue
    const apart = sumBelow / below - (sum - sumBelow) / (total - below)
    const between = below * (total - below) * apart * apart
    if (between > bestBetween) {
      best = shade
      bestBetween = between
    }
  }
  return best
}
