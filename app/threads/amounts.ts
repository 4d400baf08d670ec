import { formatThreadLength } from '#language/lengths'
import { parseThreadLength, type ThreadLengthUnit } from '#lib/quantity/thread-length'
import { threadLength } from '#words/amounts'

const otherUnit = { m: 'yd', yd: 'm' } as const

/** A length of strand as a length of the thread it is parted from, in both units, the person's first: `8 m (8.75 yd)`. */
export const formatStrandBoth = (strandTenths: number, strands: number, unit: ThreadLengthUnit): string =>
  `${threadLength(strandTenths, strands, unit)} (${threadLength(strandTenths, strands, otherUnit[unit])})`

/**
 * A length of thread as sold, for a form that sends it back: in the person's unit when it reads back the same, else in the other, else
 * in millimetres, so that a form sent unchanged changes nothing.
 */
export function exactLength(tenths: number, unit: ThreadLengthUnit): string {
  const texts = [formatThreadLength(tenths, unit), formatThreadLength(tenths, otherUnit[unit])]
  return texts.find((text) => parseThreadLength(text, unit) === tenths) ?? `${tenths / 10} mm`
}
