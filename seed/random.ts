/** A stream of numbers that is the same on every machine for the same seed. */
export type Random = {
  /** @returns a number from 0 up to but not including 1 */
  next(): number
  /** @returns a whole number from `low` to `high`, both included */
  int(low: number, high: number): number
  /** @returns true with probability `share` (0 to 1) */
  chance(share: number): boolean
  /** @throws {RangeError} when the list is empty */
  pick<T>(list: readonly T[]): T
  /** Pick by weight: `[['leaflet', 5], ['card', 1]]` gives a leaflet five times in six. */
  weighted<T>(choices: readonly (readonly [T, number])[]): T
  /** @returns a new list in random order (Fisher and Yates); the given one stays as it is */
  shuffle<T>(list: readonly T[]): T[]
  /** @returns `count` different members of the list, or all of them when it is shorter */
  sample<T>(list: readonly T[], count: number): T[]
  /**
   * @returns a number about `mean` with standard deviation `spread`: the sum of twelve uniform numbers, so never further
   * than six spreads out, and made of additions only, so that no machine's logarithm can change it
   */
  normal(mean: number, spread: number): number
}

/** FNV-1a, 32 bits, over UTF-16 units (Fowler, Noll and Vo; the offset and prime are the published ones). */
function hash32(text: string): number {
  let hash = 0x811c9dc5
  for (let at = 0; at < text.length; at++) hash = Math.imul(hash ^ text.charCodeAt(at), 0x01000193)
  return hash >>> 0
}

/**
 * A seeded random stream: the `sfc32` generator of Chris Doty-Humphrey's PractRand, three words of state and a counter,
 * started from a hash of the seed and run twelve times before its first number is used.
 *
 * Give each part of a work its own stream (`seededRandom('7 cloth')`), so that a change in one part leaves the others alone.
 */
export function seededRandom(seed: number | string): Random {
  const text = String(seed)
  let a = hash32(`${text}/a`)
  let b = hash32(`${text}/b`)
  let c = hash32(`${text}/c`)
  let counter = 1

  const next = () => {
    const word = (((a + b) | 0) + counter) | 0
    counter = (counter + 1) | 0
    a = b ^ (b >>> 9)
    b = (c + (c << 3)) | 0
    c = (((c << 21) | (c >>> 11)) + word) | 0
    return (word >>> 0) / 2 ** 32
  }
  for (let turn = 0; turn < 12; turn++) next()

  const int = (low: number, high: number) => low + Math.floor(next() * (high - low + 1))
  const pick = <T>(list: readonly T[]): T => {
    if (list.length === 0) throw new RangeError('pick: the list is empty')
    return list[int(0, list.length - 1)] as T
  }
  const shuffle = <T>(list: readonly T[]): T[] => {
    const mixed = [...list]
    for (let at = mixed.length - 1; at > 0; at--) {
      const other = int(0, at)
      const held = mixed[at] as T
      mixed[at] = mixed[other] as T
      mixed[other] = held
    }
    return mixed
  }

  return {
    next,
    int,
    pick,
    shuffle,
    chance: (share) => next() < share,
    weighted: (choices) => {
      if (choices.length === 0) throw new RangeError('weighted: there are no choices')
      let left = next() * choices.reduce((sum, [, weight]) => sum + weight, 0)
      for (const [choice, weight] of choices) {
        left -= weight
        if (left < 0) return choice
      }
      return (choices.at(-1) as (typeof choices)[number])[0]
    },
    sample: (list, count) => shuffle(list).slice(0, count),
    normal: (mean, spread) => {
      let sum = 0
      for (let turn = 0; turn < 12; turn++) sum += next()
      return mean + spread * (sum - 6)
    },
  }
}
