import { lengthWords } from './length-words'
import { longestFigureText, parseNumber } from './number'

export const UM_PER_INCH = 25_400

export type LengthUnit = 'in' | 'cm'

/** Micrometres in each unit, exact since 1959: 1 in = 25.4 mm, 1 yd = 0.9144 m. */
const umPerUnit = { mm: 1_000, cm: 10_000, m: 1_000_000, in: UM_PER_INCH, ft: 12 * UM_PER_INCH, yd: 36 * UM_PER_INCH } as const

const unitWords: Record<string, keyof typeof umPerUnit> = { ...lengthWords, "''": 'in' }

type Unit = keyof typeof umPerUnit

/** Split `12½ in.` into its number and unit; the unit is null when none is written, the whole null when it is not a length. */
function readLength(text: string): { value: number; unit: Unit | null } | null {
  if (text.length > longestFigureText) return null
  const parts = /^(.*?)\s*([a-z]+|"|'{1,2})?\.?$/u.exec(text.trim().toLowerCase().replace(/[”“″]/gu, '"').replace(/[’′]/gu, "'"))
  if (!parts) return null
  const unit = parts[2] === undefined ? null : unitWords[parts[2]]
  const value = parseNumber(parts[1] as string)
  return unit === undefined || value === null || value < 0 ? null : { value, unit }
}

function toWholeUm(value: number, unit: Unit): number | null {
  const um = Math.round(value * umPerUnit[unit])
  return Number.isSafeInteger(um) ? um : null
}

/**
 * Read a length of cloth: `16`, `16 in`, `16"`, `1 1/2"`, `12½`, `40,6 cm`, `406 mm`, `1 yd`, `0.5 m`; a bare number is in `defaultUnit`.
 *
 * @returns whole micrometres, to the nearest one; null when it is not a length, or is negative.
 */
export function parseClothLength(text: string, defaultUnit: LengthUnit): number | null {
  const read = readLength(text)
  return read && toWholeUm(read.value, read.unit ?? defaultUnit)
}

/**
 * Read a size, width first: `18 x 27 in`, `18"x27"`, `45 × 70 cm`, `18 by 27`. A unit written once holds for both.
 *
 * @returns null when it is not a size, or a side is nought.
 */
export function parseClothSize(text: string, defaultUnit: LengthUnit): { widthUm: number; heightUm: number } | null {
  if (text.length > longestFigureText) return null
  const sides = text.split(/\s*(?:[x×*]|\b(?:by|mal)\b)\s*/iu)
  if (sides.length !== 2) return null
  const width = readLength(sides[0] as string)
  const height = readLength(sides[1] as string)
  if (!width || !height) return null
  const widthUm = toWholeUm(width.value, width.unit ?? height.unit ?? defaultUnit)
  const heightUm = toWholeUm(height.value, height.unit ?? width.unit ?? defaultUnit)
  return widthUm && heightUm ? { widthUm, heightUm } : null
}

const quarters = ['', '¼', '½', '¾']

function formatInches(um: number): string {
  const inQuarters = (um * 4) / UM_PER_INCH
  const wholeQuarters = Math.round(inQuarters)
  if (Math.abs(inQuarters - wholeQuarters) > 1e-6 || wholeQuarters < 0) return String(Number((um / UM_PER_INCH).toFixed(3)))
  const inches = Math.floor(wholeQuarters / 4)
  const fraction = quarters[wholeQuarters % 4] as string
  return inches === 0 && fraction ? fraction : `${inches}${fraction}`
}

const formatNumber = (um: number, unit: LengthUnit): string =>
  unit === 'in' ? formatInches(um) : String(Number((um / umPerUnit.cm).toFixed(2)))

/** @returns inches with a fraction when exact in quarters (`12½ in`), else up to three decimals; centimetres with up to two. */
export const formatClothLength = (um: number, unit: LengthUnit): string => `${formatNumber(um, unit)} ${unit}`

/** @returns the size, width first: `16 × 13 in`. */
export const formatClothSize = (size: { widthUm: number; heightUm: number }, unit: LengthUnit): string =>
  `${formatNumber(size.widthUm, unit)} × ${formatNumber(size.heightUm, unit)} ${unit}`

/**
 * The least whole number of steps not under `um`, in micrometres. A nanometre above a step counts as on it, so that a computed
 * 254,000.00000000003 stays at ten inches.
 *
 * @throws {RangeError} if the step is not a positive whole number.
 */
export function roundUpUm(um: number, stepUm: number): number {
  if (!Number.isSafeInteger(stepUm) || stepUm <= 0) throw new RangeError(`roundUpUm: step ${stepUm}`)
  return Math.ceil((um - 1e-3) / stepUm) * stepUm + 0
}
