import type { Measurement, Spread } from './measurement'

const byValue = (a: number, b: number): number => a - b

/**
 * The value that a share of the samples does not go beyond (nearest rank).
 *
 * @param share  0.5 for the median, 0.95 for p95
 * @throws {RangeError} if there are no samples
 */
export function percentile(samples: readonly number[], share: number): number {
  if (samples.length === 0) throw new RangeError('percentile: no samples')
  const sorted = [...samples].sort(byValue)
  return sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)] as number
}

export const spreadOf = (samples: readonly number[]): Spread => ({
  median: percentile(samples, 0.5),
  least: Math.min(...samples),
  most: Math.max(...samples),
})

/** Work to be timed from its beginning to its end, or work that says itself how many ms of it count. */
export type Timed = (() => void) | { countedMs: () => number }

/** How long it takes, in ms. */
export function timeMs(work: Timed): number {
  if (typeof work !== 'function') return work.countedMs()
  const begun = performance.now()
  work()
  return performance.now() - begun
}

/**
 * Time two ways of doing the same by turns, so that whatever else the machine does falls on both alike; which goes first changes
 * from round to round.
 *
 * @param rounds   samples kept of each
 * @param warmUps  rounds run first and not kept
 */
export function timeByTurns(
  { ours, against }: { ours: Timed; against: Timed },
  { rounds, warmUps }: { rounds: number; warmUps: number },
): { ours: Spread; against: Spread } {
  const samples = { ours: [] as number[], against: [] as number[] }
  for (let round = -warmUps; round < rounds; round++) {
    const isOursFirst = round % 2 === 0
    const first = timeMs(isOursFirst ? ours : against)
    const second = timeMs(isOursFirst ? against : ours)
    if (round < 0) continue
    samples.ours.push(isOursFirst ? first : second)
    samples.against.push(isOursFirst ? second : first)
  }
  return { ours: spreadOf(samples.ours), against: spreadOf(samples.against) }
}

/** Medians beside each other, with the goal of being so many times faster; below 1, of taking no more than so many times as long. */
export function comparedTimes(
  name: string,
  { ours, against }: { ours: Spread; against: Spread },
  { samples, timesFaster }: { samples: number; timesFaster: number | null },
): Measurement {
  const ratio = against.median / ours.median
  return {
    name,
    ours: ours.median,
    against: against.median,
    ratio,
    unit: 'ms',
    samples,
    oursRange: [ours.least, ours.most],
    againstRange: [against.least, against.most],
    goal: timesFaster === null ? null : { words: wordsOf(timesFaster), isMet: ratio >= timesFaster },
  }
}

const wordsOf = (timesFaster: number): string =>
  timesFaster < 1 ? `within ${1 / timesFaster}×` : `at least ${timesFaster.toLocaleString('en')}×`
