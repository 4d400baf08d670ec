import { lengthWords } from './length-words'
import { longestFigureText, parseNumber } from './number'

export const TENTHS_PER_MM = 10

export type ThreadLengthUnit = 'm' | 'yd'

/** Tenths of a millimetre in each unit, exact since 1959: 1 yd = 0.9144 m. */
const tenthsPerUnit = { mm: 10, cm: 100, m: 10_000, in: 254, ft: 3_048, yd: 9_144 } as const

const unitWords: Record<string, keyof typeof tenthsPerUnit> = { ...lengthWords, ms: 'm', mtr: 'm', mtrs: 'm', y: 'yd' }

/** Tenths of a millimetre in so many metres, to the nearest whole tenth. */
export const metresToTenths = (metres: number): number => Math.round(metres * tenthsPerUnit.m)

/**
 * Read a length of thread: `8 m`, `8.7 yd`, `5 yards`, `250cm`; a bare number is in `defaultUnit`.
 *
 * @returns whole tenths of a millimetre of the thread as sold (not multiplied by its strands), to the nearest tenth; null when it is
 *   not a length, or is negative.
 */
export function parseThreadLength(text: string, defaultUnit: ThreadLengthUnit): number | null {
  if (text.length > longestFigureText) return null
  const parts = /^(.*?)\s*([a-z]+|["'])?\.?$/u.exec(text.trim().toLowerCase().replace(/[”″]/gu, '"').replace(/[’′]/gu, "'"))
  if (!parts) return null
  const unit = parts[2] === undefined ? defaultUnit : unitWords[parts[2]]
  const value = parseNumber(parts[1] as string)
  if (unit === undefined || value === null || value < 0) return null
  const tenths = Math.round(value * tenthsPerUnit[unit])
  return Number.isSafeInteger(tenths) ? tenths : null
}

/** @returns the length in metres or yards with up to two decimals (`13.16 m`, `8 yd`); under a hundredth, its first figure (`0.003 m`). */
export function formatThreadLength(tenths: number, unit: ThreadLengthUnit): string {
  const value = tenths / tenthsPerUnit[unit]
  const shown = value !== 0 && Math.abs(value) < 0.01 ? value.toPrecision(1) : value.toFixed(2)
  return `${Number(shown)} ${unit}`
}
