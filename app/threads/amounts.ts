import { formatThreadLength, parseThreadLength, type ThreadLengthUnit } from '#lib/quantity/thread-length'
import type { Batch } from '#lib/stock/batch'
import type { ThreadLine } from '#lib/thread/thread'

const otherUnit = { m: 'yd', yd: 'm' } as const

/** A length of one strand, said as the thread it is a part of: `13.5 m`. */
export const formatStrand = (strandTenths: number, strands: number, unit: ThreadLengthUnit): string =>
  formatThreadLength(strandTenths / strands, unit)

/** The same in both units, the person's first: `8 m (8.75 yd)`. */
export const formatStrandBoth = (strandTenths: number, strands: number, unit: ThreadLengthUnit): string =>
  `${formatStrand(strandTenths, strands, unit)} (${formatStrand(strandTenths, strands, otherUnit[unit])})`

/**
 * A length of thread as sold, for a form that sends it back: in the person's unit when it reads back the same, else in the other, else
 * in millimetres, so that a form sent unchanged changes nothing.
 */
export function exactLength(tenths: number, unit: ThreadLengthUnit): string {
  const texts = [formatThreadLength(tenths, unit), formatThreadLength(tenths, otherUnit[unit])]
  return texts.find((text) => parseThreadLength(text, unit) === tenths) ?? `${tenths / 10} mm`
}

/** `1 skein`, `6 skeins`. */
export const countPutUps = (count: number, word: string): string => `${count} ${word}${count === 1 ? '' : 's'}`

const certaintyWords = { measured: 'measured', label: 'by the label', guess: 'a guess' } as const

type Amounts = Pick<Batch, 'wholePutUps' | 'partStrandTenths' | 'partCertainty'>
type LineAmounts = Pick<ThreadLine, 'strands' | 'putUpWord'>

/** The part of a batch and how it is known: `2.5 m, measured`; empty when there is none. */
export function describePart(batch: Amounts, strands: number, unit: ThreadLengthUnit): string {
  if (batch.partCertainty === 'none') return ''
  if (batch.partCertainty === 'some') return 'some, length unknown'
  return `${formatStrand(batch.partStrandTenths, strands, unit)}, ${certaintyWords[batch.partCertainty]}`
}

/** What a batch holds: `3 skeins and 2.5 m, measured`. */
export function describeAmounts(batch: Amounts, line: LineAmounts, unit: ThreadLengthUnit): string {
  const whole = batch.wholePutUps > 0 ? countPutUps(batch.wholePutUps, line.putUpWord) : ''
  const part = describePart(batch, line.strands, unit)
  return [whole, part].filter(Boolean).join(' and ') || 'used up'
}
