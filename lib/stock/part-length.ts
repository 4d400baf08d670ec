import { parseNumber } from '#lib/quantity/number'
import { parseThreadLength, type ThreadLengthUnit } from '#lib/quantity/thread-length'
import { ok, type Result, refused } from '#lib/result'
import type { Batch, PartCertainty } from './batch'

/**
 * The length of a part skein by its weight: weight ÷ weight of a full one × the length of a full one, bands and cards taken off both.
 * Common practice, no published source. Rounded down to a whole strand tenth, so that no thread is counted that is not there.
 *
 * @throws {RangeError} if a figure is not a whole number, the weight is below nought, or a full one weighs or holds nothing.
 */
export function lengthByWeight(input: { milligrams: number; putUpMilligrams: number; putUpStrandTenths: number }): number {
  const { milligrams, putUpMilligrams, putUpStrandTenths } = input
  const areWhole = [milligrams, putUpMilligrams, putUpStrandTenths].every(Number.isSafeInteger)
  if (!areWhole || milligrams < 0 || putUpMilligrams < 1 || putUpStrandTenths < 1)
    throw new RangeError(`lengthByWeight: ${milligrams} mg of ${putUpMilligrams} mg, ${putUpStrandTenths}`)
  // In whole numbers: the product can be past what a double holds exactly.
  return Number((BigInt(milligrams) * BigInt(putUpStrandTenths)) / BigInt(putUpMilligrams))
}

/** What a part is read by: one full put-up. Its weight is null while nobody has set it down. */
export type FullPutUp = { strands: number; putUpStrandTenths: number; putUpMilligrams: number | null }

/** A full put-up of another length of the same thread: it weighs in proportion, to the nearest milligram. */
export function fullOfLength(full: FullPutUp, putUpStrandTenths: number): FullPutUp {
  const { strands, putUpMilligrams } = full
  const weight = putUpMilligrams === null ? null : Math.round((putUpMilligrams * putUpStrandTenths) / full.putUpStrandTenths)
  return { strands, putUpStrandTenths, putUpMilligrams: weight === null ? null : Math.max(1, weight) }
}

export type Part = Pick<Batch, 'partStrandTenths' | 'partCertainty'>

/** Why a part was not understood. `no-full-weight`: nobody has set down what a full one weighs. */
export type PartRefused =
  | { kind: 'not-a-part' }
  | { kind: 'not-a-fraction' }
  | { kind: 'no-full-weight' }
  | { kind: 'too-long'; mostStrandTenths: number }

/** Milligrams in each unit of weight; an ounce is 28.349523125 g by its definition of 1959. */
const milligramsPer: Readonly<Record<string, number>> = {
  mg: 1,
  g: 1_000,
  gr: 1_000,
  gm: 1_000,
  gram: 1_000,
  grams: 1_000,
  gramme: 1_000,
  grammes: 1_000,
  oz: 28_349.523125,
  ounce: 28_349.523125,
  ounces: 28_349.523125,
}

const weightText = /^(.*?)\s*([a-z]+)\.?$/u
const fractionText = /^(?:(\d{1,4})\s*[/⁄∕]\s*(\d{1,4})|([½¼¾⅓⅔⅛⅜⅝⅞]))$/u
const fractionWords: Readonly<Record<string, [number, number]>> = {
  'a quarter': [1, 4],
  quarter: [1, 4],
  'a third': [1, 3],
  half: [1, 2],
  'a half': [1, 2],
  'three quarters': [3, 4],
  'three-quarters': [3, 4],
  viertel: [1, 4],
  'ein viertel': [1, 4],
  'ein drittel': [1, 3],
  halb: [1, 2],
  halbe: [1, 2],
  'eine halbe': [1, 2],
  'die hälfte': [1, 2],
  'drei viertel': [3, 4],
  dreiviertel: [3, 4],
}
const noneWords: ReadonlySet<string> = new Set(['0', 'none', 'kein', 'keine', 'keines', 'nichts'])
const someWords: ReadonlySet<string> = new Set(['some', 'etwas'])

const floorOf = (strandTenths: number, [parts, of]: [number, number]): number =>
  Number((BigInt(strandTenths) * BigInt(parts)) / BigInt(of))

function fractionOf(text: string): [number, number] | null {
  const word = fractionWords[text]
  if (word) return word
  const found = fractionText.exec(text)
  if (!found) return null
  if (found[3] === undefined) return [Number(found[1]), Number(found[2])]
  // The characters' fractions are eighths and thirds.
  const value = parseNumber(found[3]) as number
  const thirds = Math.round(value * 3)
  return Math.abs(value * 3 - thirds) < 1e-9 ? [thirds, 3] : [Math.round(value * 8), 8]
}

/**
 * Read how much of a part put-up there is, as one says it: a length as sold (`2.5 m`: measured), a fraction of a full one (`1/2`: a
 * guess, rounded down), a weight (`3.1 g`: measured), or `some`. Empty is no part. German words are read as well.
 *
 * @param full.unit              of a bare number
 * @param mostStrandTenths  longer than this is a slip of the finger
 */
export function parsePart(
  text: string,
  full: FullPutUp & { unit: ThreadLengthUnit },
  mostStrandTenths: number,
): Result<Part, PartRefused> {
  const said = text.trim().toLowerCase().replace(/\s+/gu, ' ')
  if (said === '' || noneWords.has(said)) return ok({ partStrandTenths: 0, partCertainty: 'none' })
  if (someWords.has(said)) return ok({ partStrandTenths: 0, partCertainty: 'some' })
  const read = (strandTenths: number, partCertainty: PartCertainty): Result<Part, PartRefused> => {
    if (strandTenths <= 0) return refused({ kind: 'not-a-part' })
    return strandTenths <= mostStrandTenths
      ? ok({ partStrandTenths: strandTenths, partCertainty })
      : refused({ kind: 'too-long', mostStrandTenths })
  }

  const fraction = fractionOf(said)
  if (fraction) {
    const [parts, of] = fraction
    if (parts < 1 || parts >= of) return refused({ kind: 'not-a-fraction' })
    return read(floorOf(full.putUpStrandTenths, fraction), 'guess')
  }
  const weight = weightText.exec(said)
  const perUnit = weight ? milligramsPer[weight[2] as string] : undefined
  if (weight && perUnit !== undefined) {
    const value = parseNumber(weight[1] as string)
    if (value === null || value <= 0) return refused({ kind: 'not-a-part' })
    if (full.putUpMilligrams === null) return refused({ kind: 'no-full-weight' })
    const milligrams = Math.floor(value * perUnit + 1e-6)
    if (!Number.isSafeInteger(milligrams)) return refused({ kind: 'not-a-part' })
    const { putUpMilligrams, putUpStrandTenths } = full
    return read(lengthByWeight({ milligrams, putUpMilligrams, putUpStrandTenths }), 'measured')
  }
  const tenths = parseThreadLength(said, full.unit)
  return tenths === null ? refused({ kind: 'not-a-part' }) : read(tenths * full.strands, 'measured')
}
