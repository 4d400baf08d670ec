import { formatThreadLength, type ThreadLengthUnit } from '#lib/quantity/thread-length'
import { roundUpTenths } from './thread-use'

/**
 * Whole put-ups that hold a need, both in tenths of a millimetre of one strand. Sum every use of a thread before asking.
 *
 * @throws {RangeError} if the need is negative or the put-up holds nothing.
 */
export function putUpsFor(strandTenths: number, putUpStrandTenths: number): number {
  if (!(strandTenths >= 0 && putUpStrandTenths > 0)) throw new RangeError(`putUpsFor: ${strandTenths} in ${putUpStrandTenths}`)
  return Math.ceil(strandTenths / putUpStrandTenths)
}

/**
 * The fewest and the most put-ups a need may turn out to take, where it is only known to lie above `leastStrandTenths` and up to
 * `strandTenths`. One plans on the most.
 */
export function putUpRange(
  { leastStrandTenths, strandTenths }: { leastStrandTenths: number; strandTenths: number },
  putUpStrandTenths: number,
): { fewest: number; most: number } {
  const most = putUpsFor(strandTenths, putUpStrandTenths)
  if (leastStrandTenths >= strandTenths) return { fewest: most, most }
  return { fewest: Math.min(most, Math.floor(leastStrandTenths / putUpStrandTenths) + 1), most }
}

/**
 * The length of a part by its weight: weight ÷ weight of a full put-up × length of one. What it is wound on must be off the scales both
 * times. Common practice, no published source.
 *
 * @returns tenths of a millimetre of one strand, rounded down as all stock that is reckoned.
 * @throws {RangeError} if the part weighs less than nothing, or the full put-up nothing.
 */
export function lengthByWeight(part: { milligrams: number; putUpMilligrams: number; putUpStrandTenths: number }): number {
  const { milligrams, putUpMilligrams, putUpStrandTenths } = part
  if (!(milligrams >= 0 && putUpMilligrams > 0 && putUpStrandTenths > 0 && Number.isFinite(milligrams)))
    throw new RangeError(`lengthByWeight: ${milligrams} of ${putUpMilligrams} mg, ${putUpStrandTenths}`)
  return Math.floor((milligrams * putUpStrandTenths) / putUpMilligrams)
}

export type StatedAmount = {
  /** Put-ups as a chart states them, in hundredths: two skeins is 200. */
  hundredths: number
  putUpStrandTenths: number
  chartPitchUm: number
  yourPitchUm: number
  chartStrands: number
  yourStrands: number
}

/**
 * The need behind an amount stated in put-ups, carried over to another cloth or other strands: × (your pitch ÷ chart's) × (your
 * strands ÷ chart's).
 *
 * A chart states whole put-ups rounded up: "2 skeins" is a need above 1 and up to 2, so `leastStrandTenths` is a bound the need lies
 * above, and `strandTenths` is the top, to plan on. A fraction (0.6, 1.5) was measured and is a single figure: both are the same.
 *
 * @returns whole tenths of a millimetre of one strand; the bound rounded down, the top up.
 * @throws {RangeError} if an amount, pitch or number of strands is not above nought.
 */
export function rescaleStated(stated: StatedAmount): { leastStrandTenths: number; strandTenths: number } {
  const { hundredths, putUpStrandTenths, chartPitchUm, yourPitchUm, chartStrands, yourStrands } = stated
  for (const [name, value] of Object.entries(stated)) {
    if (!(value > 0 && Number.isFinite(value))) throw new RangeError(`rescaleStated: ${name} ${value}`)
  }
  const rescale = (someHundredths: number) =>
    (someHundredths * putUpStrandTenths * yourPitchUm * yourStrands) / (100 * chartPitchUm * chartStrands)
  const strandTenths = roundUpTenths(rescale(hundredths))
  const isWhole = hundredths % 100 === 0
  return { leastStrandTenths: isWhole ? Math.floor(rescale(hundredths - 100) + 1e-6) : strandTenths, strandTenths }
}

/** What a put-up is sold by: yards when only they come out even in tenths. */
export function putUpUnit(putUpStrandTenths: number, strands: number): ThreadLengthUnit {
  const tenths = putUpStrandTenths / strands
  const isEvenInMetres = tenths % 1_000 === 0
  const isEvenInYards = (tenths * 10) % 9_144 === 0
  return isEvenInYards && !isEvenInMetres ? 'yd' : 'm'
}

/** @returns a put-up in words: `8 m of 6 strands`, `5 yd of 6 strands`, `50 m`. */
export function putUpLabel(putUpStrandTenths: number, strands: number): string {
  const length = formatThreadLength(putUpStrandTenths / strands, putUpUnit(putUpStrandTenths, strands))
  return strands === 1 ? length : `${length} of ${strands} strands`
}
