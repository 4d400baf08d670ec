import { say, sayings } from '#language/say'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import type { PartCertainty } from '#lib/stock/batch'
import type { ThreadLine } from '#lib/thread/thread'
import { counted, listed, threadLength } from './amounts'

const certaintyWords = sayings({ measured: 'measured', label: 'by the label', guess: 'a guess' })

type Part = { partStrandTenths: number; partCertainty: PartCertainty }

/** The part of a batch and how it is known: "2.5 m, measured"; empty when there is none. */
export function partWords(part: Part, strands: number, unit: ThreadLengthUnit): string {
  if (part.partCertainty === 'none') return ''
  if (part.partCertainty === 'some') return say('some, length unknown')
  return `${threadLength(part.partStrandTenths, strands, unit)}, ${certaintyWords[part.partCertainty]}`
}

/** What there is of a batch: "3 hanks and 2.5 m, measured"; "used up" when there is nothing. Its own word for a put-up comes first. */
export function heldWords(
  batch: Part & { wholePutUps: number; putUpWord?: string | null },
  line: Pick<ThreadLine, 'strands' | 'putUpWord'>,
  unit: ThreadLengthUnit,
): string {
  const whole = batch.wholePutUps > 0 ? counted(batch.wholePutUps, batch.putUpWord ?? line.putUpWord) : ''
  return listed([whole, partWords(batch, line.strands, unit)].filter((words) => words !== '')) || say('used up')
}

/** Put-ups and a length that were moved or left, without how the length is known: "2 skeins and 3.5 m"; empty when there is nothing. */
export function amountWords(
  amount: { wholePutUps: number; partStrandTenths: number },
  line: Pick<ThreadLine, 'strands' | 'putUpWord'>,
  unit: ThreadLengthUnit,
): string {
  const { wholePutUps, partStrandTenths } = amount
  return listed([
    ...(wholePutUps > 0 ? [counted(wholePutUps, line.putUpWord)] : []),
    ...(partStrandTenths > 0 ? [threadLength(partStrandTenths, line.strands, unit)] : []),
  ])
}
