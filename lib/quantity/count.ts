import { UM_PER_INCH } from './cloth-length'
import { longestFigureText, parseNumber } from './number'

/**
 * A count as an exact ratio: so many threads (or blocks) in so many micrometres.
 * 28 to the inch is `{ threads: 28, perUm: 25_400 }`, 110 per 10 cm is `{ threads: 110, perUm: 100_000 }`.
 */
export type Count = { threads: number; perUm: number }

const greatestCommonDivisor = (a: number, b: number): number => (b === 0 ? a : greatestCommonDivisor(b, a % b))

/** Coarser and finer than any counted cloth: a figure outside is a slip, such as a year or a size. */
const leastPerInch = 1
const mostPerInch = 200

/** The count as a ratio of whole numbers, or null when the threads are not exact in thousandths or the count cannot be one. */
function countOf(threads: number, perUm: number): Count | null {
  const thousandths = Math.round(threads * 1_000)
  if (Math.abs(thousandths - threads * 1_000) > 1e-6) return null
  const scale = 1_000 / greatestCommonDivisor(thousandths, 1_000)
  const count = { threads: (thousandths * scale) / 1_000, perUm: perUm * scale }
  const inInch = perInch(count)
  return inInch >= leastPerInch && inInch <= mostPerInch ? count : null
}

const overWords: Record<string, 1 | 2> = { '1': 1, one: 1, ein: 1, einen: 1, '2': 2, two: 2, zwei: 2 }

/** What follows the figures, white space taken out, and the length it says they were counted in. */
const perWords: Record<string, number> = {
  '': UM_PER_INCH,
  ct: UM_PER_INCH,
  cts: UM_PER_INCH,
  count: UM_PER_INCH,
  in: UM_PER_INCH,
  inch: UM_PER_INCH,
  '"': UM_PER_INCH,
  zoll: UM_PER_INCH,
  tpi: UM_PER_INCH,
  cm: 10_000,
  '1cm': 10_000,
  '10cm': 100_000,
  dm: 100_000,
}

/**
 * Read a cloth count: `28`, `28 ct over 2`, `14 count`, `110/10cm`, `110 per 10 cm`, `11/cm`, and `34 x 31` (ends, then picks) for cloth
 * that is not the same both ways. Without a unit it is to the inch. `over` is null when not said. German is read as well: `28 über zwei`,
 * `110 je 10 cm`.
 *
 * @returns null when it is not a count, or lies outside 1 to 200 threads an inch.
 */
export function parseCount(text: string): { ends: Count; picks: Count; over: 1 | 2 | null } | null {
  if (text.length > longestFigureText) return null
  const folded = text
    .replace(/[\s()]+/gu, ' ')
    .trim()
    .toLowerCase()
  const parts = /^(.*?)(?:,? ?(?<!\p{L})(?:over|über) (1|2|one|two|einen?|zwei)(?: (?:threads?|fäden|faden))?)?$/u.exec(folded)
  if (!parts) return null
  const figures =
    /^([\d.,½¼¾ /]*?\d?[\d½¼¾]) ?(?:[x×] ?([\d.,½¼¾ /]*?[\d½¼¾]) ?)?(?:(?:threads|fäden) ?)?(?:[-/]|per |je |auf )? ?(ct|cts|count|tpi|in|inch|"|zoll|1? ?cm|10 ?cm|dm)?\.?$/u.exec(
      (parts[1] as string).trim(),
    )
  if (!figures) return null
  const perUm = perWords[(figures[3] ?? '').replaceAll(' ', '')] as number
  const endThreads = parseNumber(figures[1] as string)
  const pickThreads = figures[2] === undefined ? endThreads : parseNumber(figures[2])
  const ends = endThreads === null ? null : countOf(endThreads, perUm)
  const picks = pickThreads === null ? null : countOf(pickThreads, perUm)
  return ends && picks ? { ends, picks, over: parts[2] === undefined ? null : (overWords[parts[2]] as 1 | 2) } : null
}

/** Threads to the inch. */
export const perInch = (count: Count): number => (count.threads * UM_PER_INCH) / count.perUm

/** The mean of ends and picks to the inch. */
export const meanPerInch = (ends: Count, picks: Count): number => (perInch(ends) + perInch(picks)) / 2

/** The same ratio, however it was counted: 14 in 1 in and 28 in 2 in. */
export const sameCount = (a: Count, b: Count): boolean => a.threads * b.perUm === b.threads * a.perUm

/** Whether the cloth was counted exactly the same both ways, so that a turned design keeps its size. */
export const isSquareCount = (ends: Count, picks: Count): boolean => sameCount(ends, picks)

/** The distance one stitch spans, in micrometres (not whole): 28 to the inch over two is 1,814.29. */
export const pitchUm = (count: Count, over: 1 | 2): number => (count.perUm * over) / count.threads

const isPerTenCm = (count: Count): boolean => count.perUm % 10_000 === 0 && count.perUm % UM_PER_INCH !== 0

/** The figures of a count, and whether it was counted by centimetres: 34 × 31 (to the inch), 110 (per 10 cm). */
export function countFigures(ends: Count, picks: Count): { figures: string; isMetric: boolean } {
  const isMetric = isPerTenCm(ends) && isPerTenCm(picks)
  const figure = (count: Count) =>
    String(Number((isMetric ? (count.threads * 100_000) / count.perUm : perInch(count)).toFixed(2)))
  return { figures: isSquareCount(ends, picks) ? figure(ends) : `${figure(ends)} × ${figure(picks)}`, isMetric }
}

/** @returns `28 count`, `34 × 31 count`, or as it was counted: `110 per 10 cm`, `134 × 122 per 10 cm`. */
export function formatCount(ends: Count, picks: Count): string {
  const { figures, isMetric } = countFigures(ends, picks)
  return `${figures} ${isMetric ? 'per 10 cm' : 'count'}`
}
