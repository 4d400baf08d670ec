import type { Blob } from './blobs'

/** Looked for no further than this: a page held straighter than that is a page held on purpose. */
const mostDegrees = 15
/** Too few letters to tell. */
const leastLetters = 20

/**
 * By how many degrees lines of text fall to the right (clockwise), to a twentieth: the turn at which the feet of letters stand on fewest
 * heights. 0 where nothing speaks for a turn. Only what is shaped like letters counts: the ground a page lies on has lines of its own.
 *
 * @param letters  Blobs that may be letters.
 * @param capPx  How high capitals are.
 * @see Henry Baird, "The skew angle of printed documents", Proceedings of the SPSE 40th Annual Conference (1987), for the feet of letters
 */
export function findSkew(letters: readonly Blob[], capPx: number): number {
  if (letters.length < leastLetters) return 0
  const xs = letters.map(({ left, right }) => (left + right) / 2)
  const feet = letters.map(({ bottom }) => bottom)
  const gathered = (degrees: number): number => {
    const slope = Math.tan((degrees * Math.PI) / 180)
    const counts = new Map<number, number>()
    for (const [at, x] of xs.entries()) {
      const level = ((feet[at] as number) - slope * x) / (capPx * 0.2)
      // In two overlapping classes, so that no line is cut in two by where the classes fall.
      for (const key of [Math.floor(level) * 2, Math.floor(level + 0.5) * 2 + 1]) counts.set(key, (counts.get(key) ?? 0) + 1)
    }
    let sum = 0
    for (const count of counts.values()) sum += count * count
    return sum
  }
  let best = 0
  let most = gathered(0) * 1.02
  const look = (from: number, to: number, step: number) => {
    for (let degrees = from; degrees <= to + 1e-9; degrees += step) {
      const here = gathered(degrees)
      if (here > most) {
        best = degrees
        most = here
      }
    }
  }
  look(-mostDegrees, mostDegrees, 0.25)
  look(best - 0.25, best + 0.25, 0.05)
  return best
}
