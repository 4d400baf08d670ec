import { formatThreadLength } from '#language/lengths'
import { say } from '#language/say'
import type { NamedThread, ReadAmount, ReadFacts, ReadKeyLine } from '#lib/chart/key-text/reading'
import type { LinePlace } from '#lib/chart/key-text/teach'
import type { LineField } from '#lib/chart/reading-fields'
import { parseNumber, parseWholeNumber } from '#lib/quantity/number'
import { parseThreadLength, type ThreadLengthUnit } from '#lib/quantity/thread-length'
import type { SentCorrection } from '../../../_reading/correction-schema'

type FieldCorrection = Extract<SentCorrection, { kind: 'field' }>
type FieldEdit = FieldCorrection['edit']
type SentAmount = Extract<FieldEdit, { field: 'amounts' }>['value'][number]

export const fieldCorrection = (place: LinePlace, edit: FieldEdit, teachesRest = false): SentCorrection => ({
  ...{ kind: 'field', place, edit, teachesRest },
})

export const sentAmount = (amount: ReadAmount): SentAmount => {
  switch (amount.kind) {
    case 'stitches':
      return { kind: 'stitches', stitch: amount.stitch, count: amount.count.value }
    case 'put-ups':
      return { kind: 'put-ups', hundredths: amount.hundredths.value, putUpWord: amount.putUpWord }
    case 'length':
      return { kind: 'length', tenths: amount.tenths.value }
  }
}

/** What says that a field is right as it was read; nothing where there is nothing to say so of. */
export function acceptField(line: ReadKeyLine, place: LinePlace, field: LineField): SentCorrection[] {
  switch (field.kind) {
    case 'symbol':
      return line.symbol ? [fieldCorrection(place, { field: 'symbol', value: line.symbol.value })] : []
    case 'strands': {
      const strands = line.threads[field.thread]?.named.strands
      return strands ? [fieldCorrection(place, { field: 'strands', thread: field.thread, value: strands.value })] : []
    }
    case 'stitches':
      return line.stitches ? [fieldCorrection(place, { field: 'stitches', value: line.stitches.value })] : []
    case 'amount':
      return [fieldCorrection(place, { field: 'amounts', value: line.amounts.map(sentAmount) })]
    case 'thread':
      return acceptThread(line, place, field.thread)
  }
}

const namingParts = ['maker', 'threadLine', 'code', 'name'] as const satisfies readonly (keyof NamedThread)[]

function acceptThread(line: ReadKeyLine, place: LinePlace, thread: number): SentCorrection[] {
  const read = line.threads[thread]
  if (!read || read.match.kind === 'several') return []
  if (read.match.kind === 'known') return [fieldCorrection(place, { field: 'match', thread, threadId: read.match.threadId })]
  return namingParts.flatMap((part) => {
    const field = read.named[part]
    return field ? [fieldCorrection(place, { field: part, thread, value: field.value })] : []
  })
}

/** What was typed, as a correction, or the sentence that says what would be taken. */
export type Typed = { ok: true; corrections: SentCorrection[] } | { ok: false; message: string }

const take = (...corrections: SentCorrection[]): Typed => ({ ok: true, corrections })

export function typedSymbol(place: LinePlace, text: string): Typed {
  const symbol = text.trim()
  if ([...symbol].length > 20) return { ok: false, message: say('A symbol has up to 20 characters.') }
  return take(fieldCorrection(place, { field: 'symbol', value: symbol || null }))
}

export function typedStrands(place: LinePlace, thread: number, text: string): Typed {
  if (text.trim() === '') return take(fieldCorrection(place, { field: 'strands', thread, value: null }))
  const strands = parseWholeNumber(text)
  if (strands === null || strands < 1 || strands > 24)
    return { ok: false, message: say('Strands are a whole number from 1 to 24.') }
  return take(fieldCorrection(place, { field: 'strands', thread, value: strands }, true))
}

/** An amount as its field shows it. */
export function amountText(amount: ReadAmount, unit: ThreadLengthUnit): string {
  switch (amount.kind) {
    case 'stitches':
      return String(amount.count.value)
    case 'put-ups':
      return String(amount.hundredths.value / 100)
    case 'length':
      return formatThreadLength(amount.tenths.value, unit)
  }
}

const mostStitches = 10_000_000

/** @param at  the amount's index; as many as there are: one more */
export function typedStitches(line: ReadKeyLine, place: LinePlace, at: number, text: string): Typed {
  const held = line.amounts[at]
  const stitch = held?.kind === 'stitches' ? held.stitch : (line.stitches?.value[0] ?? 'full')
  if (text.trim() === '') return withAmount(line, place, at, null)
  const count = parseWholeNumber(text)
  if (count === null || count > mostStitches)
    return { ok: false, message: say('Give the stitches as a whole number, such as 1240.') }
  return withAmount(line, place, at, { kind: 'stitches', stitch, count })
}

/** Skeins as 2, 0.6 or 1/2, or a length with its unit. */
export function typedPutUps(line: ReadKeyLine, place: LinePlace, at: number, text: string, unit: ThreadLengthUnit): Typed {
  if (text.trim() === '') return withAmount(line, place, at, null)
  const putUps = parseNumber(text)
  if (putUps !== null && putUps > 0 && putUps <= 10_000) {
    // Rounded up to a hundredth, so that a third of a skein is not short of itself.
    return withAmount(line, place, at, { kind: 'put-ups', hundredths: Math.ceil(putUps * 100 - 1e-6), putUpWord: null })
  }
  const tenths = parseThreadLength(text, unit)
  if (putUps === null && tenths !== null && tenths > 0 && tenths <= 100_000_000)
    return withAmount(line, place, at, { kind: 'length', tenths })
  return { ok: false, message: say('Give the skeins as 2, 0.6 or 1/2, or a length such as 3.1 m.') }
}

function withAmount(line: ReadKeyLine, place: LinePlace, at: number, amount: SentAmount | null): Typed {
  const amounts = line.amounts.map(sentAmount)
  if (amount) amounts[at] = amount
  else amounts.splice(at, 1)
  return take(fieldCorrection(place, { field: 'amounts', value: amounts }))
}

/** What says that a fact is right as it was read. */
export function acceptFact(design: number, facts: ReadFacts, names: readonly (keyof ReadFacts)[]): SentCorrection[] {
  return names.flatMap((fact) => {
    const field = facts[fact]
    if (!field) return []
    return [{ kind: 'fact', design, edit: { fact, value: field.value } } as SentCorrection]
  })
}
