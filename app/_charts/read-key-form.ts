import { say } from '#language/say'
import type { KeyLineInput, KeyThreadInput } from '#lib/db/chart/save-thread-list'
import { parseNumber, parseWholeNumber } from '#lib/quantity/number'
import { parseThreadLength, type ThreadLengthUnit } from '#lib/quantity/thread-length'
import { ok, type Result, refused } from '#lib/result'
import { type StitchTally, stitches } from '#lib/thread/stitches'
import { layoutOf, lineField, stitchWords, type ThreadPart, threadField } from './key-texts'

/** Larger figures are slips of the finger. */
const mostStitches = 10_000_000
const mostStrands = 24
const mostPutUps = 10_000
const mostPutUpTenths = 100_000_000
const mostLines = 2_000
const mostText = 200

export type FieldErrors = Record<string, string[]>
/** Lines passed over are not numbered anew: `places` says for each that was read where it stands, and the line fields of its threads. */
export type KeyForm = { keyLines: KeyLineInput[]; places: { number: number; lineFields: string[] }[] }

type Values = Record<string, string | undefined>

/**
 * Read the lines of a key as typed. A line in which nothing but maker, line and strands is filled in is passed over. A thread
 * without a maker is of the maker and line of the thread before it; without strands, of as many. The first has two of a single
 * thread and one of each in a blend (common practice, no published source).
 *
 * @returns the lines, or by field what is wrong, each in a sentence that names its line.
 */
export function readKeyForm(values: Values, unit: ThreadLengthUnit): Result<KeyForm, FieldErrors> {
  const errors: FieldErrors = {}
  const textOf = (field: string): string => (values[field] ?? '').normalize('NFC').replace(/\s+/gu, ' ').trim()
  const form: KeyForm = { keyLines: [], places: [] }
  let before: Carried = { makerName: null, lineName: null, strandsByCount: new Map() }
  const layout = layoutOf(values)
  if (layout.length > mostLines) return refused({ name: [say('A list has up to {mostLines} lines.', { mostLines })] })

  layout.forEach(({ key, threadKeys }, index) => {
    const refuse = (field: string, sentence: string) => {
      errors[field] = [say('Line {index}: {sentence}', { index: index + 1, sentence })]
      return null
    }
    const whole = (field: string, what: string): number => {
      const text = textOf(field)
      const value = text === '' ? 0 : parseWholeNumber(text)
      if (value !== null && value <= mostStitches) return value
      refuse(field, say('{what}: give a whole number, such as 120, or nothing.', { what }))
      return 0
    }
    const isFilled = (threadKey: string) =>
      (['code', 'name', 'skeins', 'putUp'] as const).some((part) => textOf(threadField(key, threadKey, part)) !== '')
    const counted = stitches.filter((stitch) => textOf(lineField(key, stitch)) !== '')
    const symbol = textOf(lineField(key, 'symbol'))
    const note = textOf(lineField(key, 'note'))
    if (!threadKeys.some(isFilled) && counted.length === 0 && symbol === '' && note === '') return
    if (symbol.length > 20) refuse(lineField(key, 'symbol'), say('the symbol may have up to 20 characters.'))
    if (note.length > 500) refuse(lineField(key, 'note'), say('the note may have up to 500 characters.'))

    const [first, ...others] = threadKeys
    const used = first === undefined ? [] : [first, ...others.filter(isFilled)]
    const threads = used.map((threadKey) => {
      const at = (part: ThreadPart) => threadField(key, threadKey, part)
      const thread = readThread({ at, textOf, refuse, before, threadCount: used.length, unit })
      before = { ...before, makerName: thread.makerName || null, lineName: thread.lineName }
      before.strandsByCount.set(used.length, thread.strands)
      return thread
    })
    const tally: StitchTally = {}
    for (const stitch of stitches) {
      const count = whole(lineField(key, stitch), stitchWords[stitch])
      if (count > 0) tally[stitch] = count
    }
    form.places.push({ number: index + 1, lineFields: used.map((threadKey) => threadField(key, threadKey, 'line')) })
    form.keyLines.push({
      symbol: symbol || null,
      note: note || null,
      tally: Object.keys(tally).length > 0 ? tally : null,
      threads,
    })
  })
  if (form.keyLines.length === 0) return refused({ name: [say('Write at least one line, with a code.')] })
  return Object.keys(errors).length > 0 ? refused(errors) : ok(form)
}

type Carried = {
  makerName: string | null
  lineName: string | null
  /** By how many threads a line has: the strands of the last such one. */
  strandsByCount: Map<number, number>
}

type Reading = {
  at: (part: ThreadPart) => string
  textOf: (field: string) => string
  refuse: (field: string, sentence: string) => null
  before: Carried
  threadCount: number
  unit: ThreadLengthUnit
}

function readThread({ at, textOf, refuse, before, threadCount, unit }: Reading): KeyThreadInput {
  const text = (part: ThreadPart) => textOf(at(part))
  for (const part of ['maker', 'line', 'code', 'name'] as const)
    if (text(part).length > mostText) refuse(at(part), say('keep it to {mostText} characters.', { mostText }))
  const makerName = text('maker') || before.makerName
  if (makerName === null) refuse(at('maker'), say('say whose thread it is; there is no line above to take the maker from.'))
  if (text('code') === '') refuse(at('code'), say('give the code as printed, zeros and all.'))
  return {
    makerName: makerName ?? '',
    lineName: text('line') || (text('maker') === '' ? before.lineName : null),
    code: text('code'),
    name: text('name') || null,
    strands: readStrands(),
    statedHundredths: readSkeins(),
    putUpTenths: readPutUp(),
  }

  function readStrands(): number {
    const usual = before.strandsByCount.get(threadCount) ?? (threadCount === 1 ? 2 : 1)
    if (text('strands') === '') return usual
    const value = parseWholeNumber(text('strands'))
    if (value !== null && value >= 1 && value <= mostStrands) return value
    refuse(at('strands'), say('strands are a whole number from 1 to {mostStrands}.', { mostStrands }))
    return usual
  }

  /** Rounded up to a hundredth, so that a third of a skein is not short of itself. */
  function readSkeins(): number | null {
    if (text('skeins') === '') return null
    const value = parseNumber(text('skeins'))
    if (value === null || value < 0 || value > mostPutUps) return refuse(at('skeins'), say('give the skeins as 2, 0.6 or 1/2.'))
    return Math.ceil(value * 100 - 1e-6) || null
  }

  function readPutUp(): number | null {
    if (text('putUp') === '') return null
    const tenths = parseThreadLength(text('putUp'), unit)
    if (tenths === null || tenths === 0 || tenths > mostPutUpTenths)
      return refuse(at('putUp'), say('give the length of one skein, such as 8 m or 5 yd.'))
    if (text('skeins') === '') return refuse(at('skeins'), say('a skein length is given, but not how many skeins.'))
    return tenths
  }
}
