import type { Blob } from './blobs'

/** By how much lines of text lie lower than their place, at so many pixels right of and below the middle of a level picture. */
export type Bend = (across: number, down: number) => number

/** Too few letters to tell. */
const leastLetters = 60
/** The feet have to gather by so much more than on level lines. */
const leastGain = 1.04
/** No leaf that can be read is off by more, in heights of capitals at its edges: turned, fanned out, bowed, bent to an S, bowed more at its foot. */
const mostOff = [0.6, 4, 1.6, 1.6, 0.8]

/**
 * How the lines of a bent leaf, or of one seen aslant, run: the surface under which the feet of letters gather on fewest heights. Its parts are
 * a turn, lines that fan out, a bow, an S, and a bow that is more at the foot than at the top. Null where the lines are level.
 *
 * Found by trying each part a little more and less, in steps that get finer, after fans one by one and bows and S in all their pairs: about
 * 500 trials, each O(letters).
 *
 * @param degrees  By how much the picture is going to be turned back.
 * @param capPx  How high capitals are.
 */
export function findBend(
  letters: readonly Blob[],
  size: { width: number; height: number },
  { degrees, capPx }: { degrees: number; capPx: number },
): Bend | null {
  if (letters.length < leastLetters) return null
  const radians = (degrees * Math.PI) / 180
  const [cos, sin] = [Math.cos(radians), Math.sin(radians)]
  const [halfWide, halfHigh] = [size.width / 2, size.height / 2]
  const feet = letters.map(({ left, right, bottom }) => {
    const [x, y] = [(left + right) / 2 - halfWide, bottom - halfHigh]
    const [across, down] = [x * cos + y * sin, y * cos - x * sin]
    return { down, parts: partsAt(across / halfWide, down / halfHigh) }
  })
  const reach = halfHigh + halfWide * Math.abs(sin) + capPx * 8
  const gathered = (amounts: readonly number[], classPx: number, shift = 0): number => {
    const counts = new Float32Array(Math.ceil((2 * reach) / classPx) + 3)
    for (const { down, parts } of feet) {
      const level = Math.min(2 * reach, Math.max(0, down - sumOf(amounts, parts) + reach)) / classPx + shift
      const at = Math.floor(level)
      counts[at] = (counts[at] as number) + 1 - (level - at)
      counts[at + 1] = (counts[at + 1] as number) + level - at
    }
    let sum = 0
    for (const count of counts) sum += count * count
    return sum
  }
  const none = [0, 0, 0, 0, 0]
  let best = none
  const coarse = capPx * 0.4
  let most = gathered(none, coarse)
  const tryOut = (amounts: number[], classPx: number): boolean => {
    if (amounts.some((amount, part) => Math.abs(amount) > capPx * (mostOff[part] as number))) return false
    const here = gathered(amounts, classPx)
    if (here <= most * 1.000_01) return false
    best = amounts
    most = here
    return true
  }
  for (let fan = -20; fan <= 20; fan++) tryOut([0, fan * coarse * 0.5, 0, 0, 0], coarse)
  const fanned = best[1] as number
  for (let bow = -5; bow <= 5; bow++)
    for (let s = -5; s <= 5; s++) tryOut([0, fanned, bow * coarse * 0.5, s * coarse * 0.5, 0], coarse)
  for (const classPx of [coarse, capPx * 0.25, capPx * 0.15]) {
    most = gathered(best, classPx)
    for (let round = 0; round < 5; round++) {
      let isBetter = false
      for (const part of none.keys()) {
        for (const by of [-2, -1, -0.5, 0.5, 1, 2]) {
          const amounts = [...best]
          amounts[part] = (amounts[part] as number) + by * classPx * 0.5
          isBetter = tryOut(amounts, classPx) || isBetter
        }
      }
      if (!isBetter) break
    }
  }
  // Wherever the classes fall: level lines may lie on the bounds of theirs.
  const atBest = (amounts: readonly number[]) =>
    Math.max(...[0, 0.25, 0.5, 0.75].map((shift) => gathered(amounts, capPx * 0.15, shift)))
  if (atBest(best) < atBest(none) * leastGain) return null
  const amounts = best
  return (across, down) => sumOf(amounts, partsAt(across / halfWide, down / halfHigh))
}

/** A turn, a fan, a bow, an S, and a bow that grows: at a place from -1 to 1 across and down. */
const partsAt = (across: number, down: number): number[] => [
  across,
  across * down,
  across * across,
  across * across * across - 0.6 * across,
  across * across * down,
]

function sumOf(amounts: readonly number[], parts: readonly number[]): number {
  let sum = 0
  for (let at = 0; at < amounts.length; at++) sum += (amounts[at] as number) * (parts[at] as number)
  return sum
}
