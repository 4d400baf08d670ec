import type { Count } from '#lib/quantity/count'

const umInInch = 25_400
const tenthsInMetre = 10_000
const tenthsInYard = 9_144

/** A decimal without more noughts than it needs; four places hold a tenth of a millimetre in a metre, and a micrometre in a centimetre. */
const decimal = (value: number): string => String(Number(value.toFixed(4)))

/** A length of thread as sold, exact to the tenth of a millimetre where it is whole in one: `8 m`, `8 yd`, `7.3151 m`. */
export function threadText(tenths: number): string {
  if (tenths % tenthsInMetre !== 0 && tenths % tenthsInYard === 0) return `${tenths / tenthsInYard} yd`
  return `${decimal(tenths / tenthsInMetre)} m`
}

/** A side of cloth, exact to the micrometre: `12.25 in` where it is whole in quarters of an inch, else `31.1234 cm`. */
export const clothText = (um: number): string =>
  um % (umInInch / 4) === 0 ? `${um / umInInch} in` : `${decimal(um / 10_000)} cm`

/** A count as Bring in reads it: `28`, `34 x 31`, `110/10cm`, with `over 2` where that is said. The ratio is kept, not how it was counted. */
export function countText(ends: Count, picks: Count, over: number | null): string {
  const isMetric = [ends, picks].every(({ perUm }) => perUm % 10_000 === 0 && perUm % umInInch !== 0)
  const figure = ({ threads, perUm }: Count) => String(Number(((threads * (isMetric ? 100_000 : umInInch)) / perUm).toFixed(3)))
  const figures = figure(ends) === figure(picks) ? figure(ends) : `${figure(ends)} x ${figure(picks)}`
  return `${figures}${isMetric ? '/10cm' : ''}${over === null ? '' : ` over ${over}`}`
}

/** A price in the notes' and coins' own figures: `14.50`. */
export const priceText = (minor: number): string => (minor / 100).toFixed(2)
