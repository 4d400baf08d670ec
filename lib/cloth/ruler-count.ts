import { type LengthUnit, UM_PER_INCH } from '#lib/quantity/cloth-length'
import { type Count, perInch } from '#lib/quantity/count'
import { ok, type Result, refused } from '#lib/result'
import type { Weave } from './cloth-piece'

/** Threads, or blocks of block cloth, counted along a ruler. Half a thread may be said; the length is in whole micrometres. */
export type RulerReading = { threads: number; lengthUm: number }

/** Readings of one way of the cloth, taken together. Figures are to the inch. */
export type CountedWay = {
  /** The mean as an exact ratio: all that was counted, in all the length it was counted in. */
  count: Count
  readings: (RulerReading & { perInch: number; isOutlier: boolean })[]
  leastPerInch: number
  mostPerInch: number
  /** What a ruler leaves open: half a thread in every length. */
  givePerInch: number
  /** Two readings that differ by more than counting explains: nobody can say which is right. */
  isApart: boolean
}

export type RulerCount = {
  /** Counted going sideways, across the ends. */
  ends: CountedWay
  /** Counted going up, across the picks. */
  picks: CountedWay
  /** How much more there are one way than the other, in per cent; 0 when the counts are equal. */
  unevenPercent: number
  /** `open`: the counts differ, but by no more than the ruler leaves open. */
  squareness: 'square' | 'open' | 'uneven'
  /** The count one would buy it by: see `soldCount`. */
  nominal: number
}

export type RulerRefusal =
  | { kind: 'no-reading'; way: 'ends' | 'picks' }
  | { kind: 'no-count'; way: 'ends' | 'picks'; perInch: number }

/** Shorter than a finger's breadth, a ruled length shows no count; longer than half a metre, nobody keeps their place. */
export const shortestRuledUm = 5_000
export const longestRuledUm = 500_000
export const mostReadings = 20
export const mostThreads = 4_000

/** Counting in three places, away from the selvedge, is good practice. */
export const enoughReadings = 3

/**
 * A reading may lie this far from the others before it is to be counted again: one thread in its length, a slip of half a thread at
 * either end, or this share, as linen itself varies. Chosen; no published source.
 */
const unevenShare = 0.04

/** Counts that cloth is commonly woven and sold in. Common practice, no published source. */
const soldCounts: Readonly<Record<Weave, readonly number[]>> = {
  block: [8, 11, 14, 16, 18, 20, 22],
  single: [20, 22, 25, 27, 28, 30, 32, 35, 36, 40, 46, 55],
}

/** Farther from any count that is sold than this, cloth is called by what was counted. It is how far an advised count is matched, too. */
const soldTolerance = 0.05

/** Coarser and finer than any counted cloth. */
const leastPerInch = 1
const mostPerInch = 200

const greatestCommonDivisor = (a: number, b: number): number => (b === 0 ? a : greatestCommonDivisor(b, a % b))

const readingPerInch = ({ threads, lengthUm }: RulerReading): number => (threads * UM_PER_INCH) / lengthUm

/**
 * All that was counted in all the length, as a ratio of whole numbers: written in inches or in tens of centimetres, as it was ruled,
 * where that stays a ratio of figures one would write.
 */
function exactMean(readings: readonly RulerReading[], unit: LengthUnit): Count {
  const halves = readings.reduce((sum, { threads }) => sum + threads * 2, 0)
  const twiceUm = readings.reduce((sum, { lengthUm }) => sum + lengthUm * 2, 0)
  const unitUm = unit === 'in' ? UM_PER_INCH : 100_000
  const common = greatestCommonDivisor(halves * unitUm, twiceUm)
  const inUnits = { threads: (halves * unitUm) / common, perUm: (unitUm * twiceUm) / common }
  if (inUnits.perUm <= 1_000 * unitUm) return inUnits
  const divisor = greatestCommonDivisor(halves, twiceUm)
  return { threads: halves / divisor, perUm: twiceUm / divisor }
}

function medianOf(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b)
  const middle = sorted.length >> 1
  return sorted.length % 2 === 1 ? (sorted[middle] as number) : ((sorted[middle - 1] as number) + (sorted[middle] as number)) / 2
}

/** Whether such a reading can have been made: whole or half threads, in a length one can rule. */
export function isReading({ threads, lengthUm }: RulerReading): boolean {
  const isThreads = Number.isSafeInteger(threads * 2) && threads > 0 && threads <= mostThreads
  return isThreads && Number.isSafeInteger(lengthUm) && lengthUm >= shortestRuledUm && lengthUm <= longestRuledUm
}

/** How far a reading may lie from `middle`, to the inch. */
const allowedPerInch = (reading: RulerReading, middle: number): number =>
  Math.max(UM_PER_INCH / reading.lengthUm, unevenShare * middle) + 1e-9

function countWay(readings: readonly RulerReading[], unit: LengthUnit): CountedWay {
  const figures = readings.map(readingPerInch)
  const middle = medianOf(figures)
  const off = readings.map((reading, at) => Math.abs((figures[at] as number) - middle) > allowedPerInch(reading, middle))
  const [leastOfAll, mostOfAll] = [Math.min(...figures), Math.max(...figures)]
  const shortest = readings.reduce((a, b) => (b.lengthUm < a.lengthUm ? b : a))
  const lengthUm = readings.reduce((sum, reading) => sum + reading.lengthUm, 0)
  return {
    count: exactMean(readings, unit),
    readings: readings.map((reading, at) => ({
      ...reading,
      perInch: figures[at] as number,
      isOutlier: readings.length >= 3 && (off[at] as boolean),
    })),
    leastPerInch: leastOfAll,
    mostPerInch: mostOfAll,
    givePerInch: (readings.length * UM_PER_INCH) / 2 / lengthUm,
    isApart: readings.length === 2 && mostOfAll - leastOfAll > allowedPerInch(shortest, middle),
  }
}

/**
 * What unmarked cloth counts, from readings along a ruler: the mean of each way as an exact ratio, how far the readings lie apart, and
 * whether the cloth is square. The order of the readings makes no difference.
 *
 * A 2 in ruler, 64 across and 61 up: 32 × 30.5 to the inch, 64 ÷ 61 − 1 = 4.9 % from square.
 *
 * @param unit  what the ruler is marked in: a count is written to the inch or to 10 cm by it
 * @returns refused when a way has no reading, or comes out as no count of cloth (1 to 200 to the inch)
 * @throws {RangeError} if a reading is not in whole or half threads, or its length is not from 5 mm to 50 cm
 */
export function countByRuler(
  { across, up }: { across: readonly RulerReading[]; up: readonly RulerReading[] },
  { weave, unit }: { weave: Weave; unit: LengthUnit },
): Result<RulerCount, RulerRefusal> {
  for (const reading of [...across, ...up])
    if (!isReading(reading)) throw new RangeError(`countByRuler: ${reading.threads} threads in ${reading.lengthUm} µm`)
  if (across.length === 0) return refused({ kind: 'no-reading', way: 'ends' })
  if (up.length === 0) return refused({ kind: 'no-reading', way: 'picks' })
  const [ends, picks] = [countWay(across, unit), countWay(up, unit)]
  const [sideways, upward] = [perInch(ends.count), perInch(picks.count)]
  for (const [way, figure] of [
    ['ends', sideways],
    ['picks', upward],
  ] as const)
    if (!(figure >= leastPerInch && figure <= mostPerInch)) return refused({ kind: 'no-count', way, perInch: figure })
  const apart = Math.abs(sideways - upward)
  const isSame = ends.count.threads * picks.count.perUm === picks.count.threads * ends.count.perUm
  return ok({
    ends,
    picks,
    unevenPercent: isSame ? 0 : (Math.max(sideways, upward) / Math.min(sideways, upward) - 1) * 100,
    squareness: isSame ? 'square' : apart <= ends.givePerInch + picks.givePerInch + 1e-9 ? 'open' : 'uneven',
    nominal: soldCount((sideways + upward) / 2, weave),
  })
}

/**
 * The count cloth is most likely sold as: the nearest that is commonly woven, within five per cent (the coarser of two as near), else
 * what was counted, in whole threads. Labels are not to be trusted, and neither is this: it says what to call it, not what to cut by.
 */
export function soldCount(meanPerInch: number, weave: Weave): number {
  const nearest = soldCounts[weave].reduce((a, b) => (Math.abs(b - meanPerInch) < Math.abs(a - meanPerInch) ? b : a))
  return Math.abs(nearest - meanPerInch) <= nearest * soldTolerance ? nearest : Math.max(1, Math.round(meanPerInch))
}

/** Readings as a line of text, `64/50800 63.5/50800`: threads over micrometres. */
export const readingsText = (readings: readonly RulerReading[]): string =>
  readings.map(({ threads, lengthUm }) => `${threads}/${lengthUm}`).join(' ')

/** Read such a line; null when it is not one, or a reading in it could not have been made. */
export function parseReadings(text: string): RulerReading[] | null {
  const parts = text.trim() === '' ? [] : text.trim().split(/ +/)
  if (parts.length > mostReadings) return null
  const readings: RulerReading[] = []
  for (const part of parts) {
    const figures = /^(\d{1,4}(?:\.5)?)\/(\d{4,6})$/.exec(part)
    const reading = { threads: Number(figures?.[1]), lengthUm: Number(figures?.[2]) }
    if (!isReading(reading)) return null
    readings.push(reading)
  }
  return readings
}
