import { ok, type Result, refused } from '#lib/result'

/**
 * A small language for the labels of many places at once.
 *
 *     T[2-4] > .[1-5] > -[01-40]
 *
 * - Text stands for itself.
 * - `[1-8]` counts; `[01-40]` counts with zeros, all of one width; `[A-F]` goes through letters.
 * - `by` leaves gaps, so that a place can be put in between later: `[10-90 by 10]` is 10, 20 … 90.
 * - A comma leaves some out or names them one by one: `[1-4, 6, 8-12]`, rising.
 * - `>` puts the next inside each one before it, and its label goes on from that label: `T[2-4] > .[1-5]` makes T2, and in it T2.1 to T2.5.
 *   Spaces round `>` mean nothing. Without it brackets count through each other in one row: `T[2-4].[1-5]` makes T2.1 to T4.5 side by side.
 *
 * In text the signs `[`, `]` and `>` cannot be used. Two counted numbers need something between them that is no digit, or the later one
 * needs one width throughout: `[1-12][1-12]` would write 1 and 11 like 11 and 1.
 */
export type LabelPattern = readonly LabelLevel[]
/** What one place's label adds to that of the place it is inside of. */
export type LabelLevel = readonly LabelPart[]
export type LabelPart =
  | { kind: 'text'; text: string }
  | { kind: 'numbers'; runs: NumberRun[] }
  | { kind: 'letters'; runs: LetterRun[] }
/** `from`, then every `step`-th up to `to`. `width`: digits each is written with, filled by zeros; null where none is filled. */
export type NumberRun = { from: number; to: number; step: number; width: number | null }
/** Both ends are letters of A to Z, or both of a to z. */
export type LetterRun = { from: string; to: string; step: number }

/** Places one pattern may make, all levels together. */
export const mostPlaces = 5_000
/** Letters of a label: as in the form of a place. */
export const longestLabel = 60
const mostDigits = 6
const mostLevels = 6

/** What could have stood where something else was found. */
export type PatternExpected = 'value' | 'end-or-to' | 'after-run' | 'step'

/** Positions count from 1. */
export type PatternRefused =
  | { kind: 'empty' }
  | { kind: 'unexpected'; at: number; found: string; expected: PatternExpected }
  | { kind: 'not-open'; at: number }
  | { kind: 'not-closed'; at: number }
  | { kind: 'nothing-inside'; at: number }
  | { kind: 'falling'; at: number; from: string; to: string }
  | { kind: 'not-after'; at: number; value: string; before: string }
  | { kind: 'mixed'; at: number; value: string }
  | { kind: 'uneven-zeros'; at: number; from: string; to: string }
  | { kind: 'too-many-digits'; at: number; most: number }
  | { kind: 'no-step'; at: number }
  | { kind: 'runs-together'; at: number }
  | { kind: 'too-deep'; at: number; most: number }
  | { kind: 'too-long'; label: string; most: number }
  | { kind: 'too-many'; count: number; most: number }

class Refusal extends Error {
  constructor(readonly refusal: PatternRefused) {
    super(refusal.kind)
  }
}
const stop = (refusal: PatternRefused): never => {
  throw new Refusal(refusal)
}

/** Read a pattern, or say at which position it does not read and what could stand there. */
export function parseLabelPattern(text: string): Result<LabelPattern, PatternRefused> {
  try {
    return ok(new Reader(text).pattern())
  } catch (error) {
    if (error instanceof Refusal) return refused(error.refusal)
    throw error
  }
}

class Reader {
  private at = 0
  constructor(private readonly text: string) {}

  pattern(): LabelPattern {
    if (this.text.trim() === '') stop({ kind: 'empty' })
    const levels: LabelLevel[] = []
    const numbersAt = new Map<LabelPart, number>()
    for (;;) {
      const levelAt = this.at
      const parts = this.level(numbersAt)
      if (parts.length === 0) stop({ kind: 'nothing-inside', at: Math.min(levelAt + 1, this.text.length + 1) })
      levels.push(parts)
      if (levels.length > mostLevels) stop({ kind: 'too-deep', at: levelAt + 1, most: mostLevels })
      if (this.at >= this.text.length) break
      this.at++
    }
    const flat = levels.flat()
    for (const [part, at] of numbersAt)
      if (runsIntoNumber(flat.slice(0, flat.indexOf(part)), part)) stop({ kind: 'runs-together', at: at + 1 })
    const longest = flat.map(longestOf).join('')
    if (longest.length > longestLabel) stop({ kind: 'too-long', label: longest, most: longestLabel })
    const count = countPlaces(levels)
    if (count > mostPlaces) stop({ kind: 'too-many', count, most: mostPlaces })
    return levels
  }

  /** Up to the next `>` or the end. `numbersAt` is told where each part of numbers began. */
  private level(numbersAt: Map<LabelPart, number>): LabelPart[] {
    const parts: LabelPart[] = []
    while (this.at < this.text.length && this.text[this.at] !== '>') {
      if (this.text[this.at] === ']') stop({ kind: 'not-open', at: this.at + 1 })
      if (this.text[this.at] === '[') {
        const at = this.at
        const part = this.bracket()
        if (part.kind === 'numbers') numbersAt.set(part, at)
        parts.push(part)
      } else {
        const from = this.at
        while (this.at < this.text.length && !'[]>'.includes(this.text[this.at] as string)) this.at++
        parts.push({ kind: 'text', text: this.text.slice(from, this.at).replace(/\s+/gu, ' ') })
      }
    }
    const [first] = parts
    if (first?.kind === 'text') first.text = first.text.trimStart()
    const last = parts.at(-1)
    if (last?.kind === 'text') last.text = last.text.trimEnd()
    return parts.filter((part) => part.kind !== 'text' || part.text !== '')
  }

  private bracket(): LabelPart {
    const openAt = this.at
    this.at++
    const numbers: NumberRun[] = []
    const letters: LetterRun[] = []
    for (;;) {
      const valueAt = this.skipSpaces()
      const value = this.value(openAt)
      const isNumber = /^\d/.test(value)
      if (isNumber ? letters.length > 0 : numbers.length > 0) stop({ kind: 'mixed', at: valueAt + 1, value })
      if (isNumber) this.numberRun(value, valueAt, openAt, numbers)
      else this.letterRun(value, valueAt, openAt, letters)
      this.skipSpaces()
      const next = this.text[this.at]
      if (next === ',') {
        this.at++
        continue
      }
      if (next === ']') {
        this.at++
        return numbers.length > 0 ? { kind: 'numbers', runs: numbers } : { kind: 'letters', runs: letters }
      }
      this.unexpected('after-run', openAt)
    }
  }

  private numberRun(first: string, valueAt: number, openAt: number, runs: NumberRun[]): void {
    const last = this.end(first, openAt)
    for (const written of [first, last.value])
      if (written.length > mostDigits) stop({ kind: 'too-many-digits', at: valueAt + 1, most: mostDigits })
    if (!/^\d+$/.test(last.value)) stop({ kind: 'mixed', at: last.at + 1, value: last.value })
    const isFilled = [first, last.value].some((written) => written.length > 1 && written.startsWith('0'))
    if (isFilled && first.length !== last.value.length)
      stop({ kind: 'uneven-zeros', at: valueAt + 1, from: first, to: last.value })
    const [from, to] = [Number(first), Number(last.value)]
    if (from > to) stop({ kind: 'falling', at: valueAt + 1, from: first, to: last.value })
    const before = runs.at(-1)
    if (before && from <= before.to)
      stop({ kind: 'not-after', at: valueAt + 1, value: first, before: written(before, before.to) })
    runs.push({ from, to, step: this.step(last.isRange, openAt), width: isFilled ? first.length : null })
  }

  private letterRun(first: string, valueAt: number, openAt: number, runs: LetterRun[]): void {
    const last = this.end(first, openAt)
    const isLower = (letter: string) => letter === letter.toLowerCase()
    const others = [last.value, ...runs.map(({ from }) => from)]
    if (/\d/.test(last.value) || others.some((letter) => isLower(letter) !== isLower(first)))
      stop({ kind: 'mixed', at: last.at + 1, value: last.value })
    if (first > last.value) stop({ kind: 'falling', at: valueAt + 1, from: first, to: last.value })
    const before = runs.at(-1)
    if (before && first <= before.to) stop({ kind: 'not-after', at: valueAt + 1, value: first, before: before.to })
    runs.push({ from: first, to: last.value, step: this.step(last.isRange, openAt) })
  }

  /** The end of a run that began with `first`: itself where no `-` follows. */
  private end(first: string, openAt: number): { value: string; at: number; isRange: boolean } {
    const firstAt = this.at - first.length
    this.skipSpaces()
    if (this.text[this.at] !== '-') return { value: first, at: firstAt, isRange: false }
    this.at++
    const at = this.skipSpaces()
    return { value: this.value(openAt), at, isRange: true }
  }

  private step(isRange: boolean, openAt: number): number {
    this.skipSpaces()
    if (!isRange || !/^by(?![A-Za-z])/.test(this.text.slice(this.at))) return 1
    this.at += 2
    const at = this.skipSpaces()
    const digits = /^\d+/.exec(this.text.slice(at))?.[0]
    if (digits === undefined) return this.unexpected('step', openAt)
    if (digits.length > mostDigits) stop({ kind: 'too-many-digits', at: at + 1, most: mostDigits })
    if (Number(digits) === 0) stop({ kind: 'no-step', at: at + 1 })
    this.at += digits.length
    return Number(digits)
  }

  /** A number, or one letter. */
  private value(openAt: number): string {
    const value = /^(?:\d+|[A-Za-z](?![A-Za-z]))/.exec(this.text.slice(this.at))?.[0]
    if (value === undefined) return this.unexpected('value', openAt)
    this.at += value.length
    return value
  }

  private skipSpaces(): number {
    while (/\s/u.test(this.text[this.at] ?? '')) this.at++
    return this.at
  }

  private unexpected(expected: PatternExpected, openAt: number): never {
    if (this.at >= this.text.length) throw new Refusal({ kind: 'not-closed', at: openAt + 1 })
    throw new Refusal({ kind: 'unexpected', at: this.at + 1, found: this.text[this.at] as string, expected })
  }
}

const written = ({ width }: NumberRun, value: number): string => String(value).padStart(width ?? 0, '0')

function* valuesOf(part: LabelPart): Generator<string> {
  if (part.kind === 'text') yield part.text
  else if (part.kind === 'numbers') {
    for (const run of part.runs) for (let value = run.from; value <= run.to; value += run.step) yield written(run, value)
  } else {
    for (const { from, to, step } of part.runs)
      for (let code = from.charCodeAt(0); code <= to.charCodeAt(0); code += step) yield String.fromCharCode(code)
  }
}

const stepsOf = (from: number, to: number, step: number): number => Math.floor((to - from) / step) + 1

function countOf(part: LabelPart): number {
  if (part.kind === 'text') return 1
  if (part.kind === 'numbers') return part.runs.reduce((sum, { from, to, step }) => sum + stepsOf(from, to, step), 0)
  return part.runs.reduce((sum, { from, to, step }) => sum + stepsOf(from.charCodeAt(0), to.charCodeAt(0), step), 0)
}

/** How many places a pattern makes, all levels together, without making them. */
export function countPlaces(pattern: LabelPattern): number {
  let above = 1
  let all = 0
  for (const level of pattern) {
    above *= level.reduce((product, part) => product * countOf(part), 1)
    all += above
  }
  return all
}

const longestOf = (part: LabelPart): string =>
  part.kind === 'text'
    ? part.text
    : part.kind === 'letters'
      ? 'A'
      : written(part.runs.at(-1) as NumberRun, part.runs.at(-1)?.to ?? 0)

/** The digits every number of a part is written with, or null where they differ. */
function widthOf(runs: readonly NumberRun[]): number | null {
  const widths = new Set(
    runs.flatMap((run) =>
      [run.from, run.from + (stepsOf(run.from, run.to, run.step) - 1) * run.step].map((value) => written(run, value).length),
    ),
  )
  return widths.size === 1 ? ([...widths][0] as number) : null
}

/** Whether a part of numbers of several widths follows another with nothing but digits between them. */
function runsIntoNumber(before: readonly LabelPart[], numbers: LabelPart): boolean {
  if (numbers.kind !== 'numbers' || widthOf(numbers.runs) !== null) return false
  for (const part of before.toReversed()) {
    if (part.kind === 'numbers') return true
    if (part.kind === 'letters' || /[^0-9]/.test(part.text.normalize('NFKD').replace(/\p{M}+/gu, ''))) return false
  }
  return false
}

/** A pattern as one writes it; reading it again gives the same. */
export const printLabelPattern = (pattern: LabelPattern): string =>
  pattern.map((level) => level.map(printPart).join('')).join(' > ')

function printPart(part: LabelPart): string {
  if (part.kind === 'text') return part.text
  const runs =
    part.kind === 'numbers'
      ? part.runs.map((run) => printRun(written(run, run.from), written(run, run.to), run.step))
      : part.runs.map(({ from, to, step }) => printRun(from, to, step))
  return `[${runs.join(', ')}]`
}

function printRun(from: string, to: string, step: number): string {
  if (from === to && step === 1) return from
  return step === 1 ? `${from}-${to}` : `${from}-${to} by ${step}`
}

/** What a level adds, each way, in rising order. */
function* endingsOf(parts: LabelLevel): Generator<string> {
  const [first, ...rest] = parts
  if (!first) yield ''
  else for (const value of valuesOf(first)) for (const ending of endingsOf(rest)) yield value + ending
}

export type PatternLabel = {
  label: string
  /** From 0, the outermost. */
  level: number
  /** The label of the place it is inside of; null for the outermost. */
  insideLabel: string | null
}

/** Every label of a pattern, each before those inside it, in the order one walks past them. */
export function expandLabelPattern(pattern: LabelPattern): PatternLabel[] {
  const labels: PatternLabel[] = []
  const add = (level: number, insideLabel: string | null) => {
    const parts = pattern[level]
    if (!parts) return
    for (const ending of endingsOf(parts)) {
      const label = (insideLabel ?? '') + ending
      labels.push({ label, level, insideLabel })
      add(level + 1, label)
    }
  }
  add(0, null)
  return labels
}

const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&')

function shapeOf(part: LabelPart): string {
  if (part.kind === 'text') return escaped(part.text)
  if (part.kind === 'letters') return '([A-Za-z])'
  const width = widthOf(part.runs)
  return width === null ? '(\\d+)' : `(\\d{${width}})`
}

function hasValue(part: Exclude<LabelPart, { kind: 'text' }>, value: string): boolean {
  const isIn = (from: number, to: number, step: number, at: number) => at >= from && at <= to && (at - from) % step === 0
  if (part.kind === 'letters')
    return part.runs.some(({ from, to, step }) => isIn(from.charCodeAt(0), to.charCodeAt(0), step, value.charCodeAt(0)))
  return part.runs.some((run) => isIn(run.from, run.to, run.step, Number(value)) && written(run, Number(value)) === value)
}

/** At which level of a pattern a label stands, from 0; null when it is none of its labels. Spelt exactly. */
export function levelInPattern(pattern: LabelPattern, label: string): number | null {
  for (let level = 0; level < pattern.length; level++) {
    const parts = pattern.slice(0, level + 1).flat()
    // A label is read in one way only: numbers that touch are told apart by their width.
    const found = new RegExp(`^${parts.map(shapeOf).join('')}$`, 'u').exec(label)
    const counted = parts.filter((part) => part.kind !== 'text')
    if (found && counted.every((part, index) => hasValue(part, found[index + 1] as string))) return level
  }
  return null
}

/** The first label a pattern has inside another (null: the outermost) that is still free, in walking order; null when none is. */
export function nextFreeLabel(
  pattern: LabelPattern,
  level: number,
  insideLabel: string | null,
  isTaken: (label: string) => boolean,
): string | null {
  for (const ending of endingsOf(pattern[level] ?? [])) {
    const label = (insideLabel ?? '') + ending
    if (ending !== '' && !isTaken(label)) return label
  }
  return null
}

/**
 * A label between two that differ in one number: the one half way, rounded down, written as wide as the first. Null when they differ in
 * anything else, or leave no number between them.
 */
export function labelBetween(first: string, second: string): string | null {
  const split = (label: string) => label.match(/\d+|\D+/gu) ?? []
  const [a, b] = [split(first), split(second)]
  if (a.length !== b.length) return null
  const differing = a.flatMap((token, index) => (token === b[index] ? [] : index))
  const [at] = differing
  if (at === undefined || differing.length > 1) return null
  const [low, high] = [a[at] as string, b[at] as string]
  if (!/^\d{1,15}$/.test(low) || !/^\d{1,15}$/.test(high)) return null
  const middle = Math.floor((Number(low) + Number(high)) / 2)
  if (Number(high) - Number(low) < 2) return null
  const width = low.startsWith('0') ? low.length : 0
  return a.toSpliced(at, 1, String(middle).padStart(width, '0')).join('')
}
