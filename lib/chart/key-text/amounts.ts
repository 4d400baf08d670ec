import { parseThreadLength } from '#lib/quantity/thread-length'
import type { Stitch } from '#lib/thread/stitches'
import { phraseAt, type Token } from './tokens'
import { lengthUnits, numberWords, putUpWords, stitchCountWords, stitchPhrases, strandWords } from './words'

/** Tokens from `first` to `last`, both counted. */
type Span = { first: number; last: number }

/** An amount found on a line by the words around it. `values` has several for a blend: 1+1. */
export type FoundAmount =
  | (Span & { kind: 'strands'; values: number[]; isEach: boolean; isNamed: boolean })
  | (Span & { kind: 'put-ups'; hundredths: number; word: string | null })
  | (Span & { kind: 'length'; tenths: number })
  /** `stitch` null: stitches, of whatever kind the line is worked in. */
  | (Span & { kind: 'stitches'; stitch: Stitch | null; count: number })

type Quantity = { value: number; values: number[]; isWhole: boolean; next: number; isWord: boolean }

/** More strands than these nobody puts in a needle. */
export const mostStrands = 12
const mostPutUps = 200
const mostStitches = 2_000_000

const isStrands = (value: number): boolean => Number.isInteger(value) && value >= 1 && value <= mostStrands

/** A figure, number word, fraction of one thing, or a range or sum of them, from a token on. */
function quantityAt(tokens: readonly Token[], at: number): Quantity | null {
  const token = tokens[at]
  if (!token) return null
  const single = (index: number): { value: number; isWhole: boolean; isWord: boolean } | null => {
    const found = tokens[index]
    if (!found) return null
    if (found.figure) return { value: found.figure.value, isWhole: found.figure.isWhole, isWord: false }
    const named = found.kind === 'word' ? numberWords[found.key] : undefined
    return named === undefined ? null : { value: named, isWhole: true, isWord: true }
  }
  if (token.key === 'half' && tokens[at + 1]?.key === 'a')
    return { value: 0.5, values: [0.5], isWhole: false, next: at + 2, isWord: true }
  const first = single(at)
  if (!first) return null
  const { value, isWhole, isWord } = first
  const values = [value]
  let next = at + 1
  const joins = tokens[next]?.key
  const second = single(next + 1)
  if (second && tokens[next + 1]?.cell === token.cell) {
    if ((joins === 'to' || joins === 'or' || joins === '–' || joins === '-') && second.value > value && second.value <= 99)
      return { value: second.value, values: [second.value], isWhole: isWhole && second.isWhole, next: next + 2, isWord }
    while (tokens[next]?.key === '+' && isStrands(single(next + 1)?.value ?? 0) && isStrands(value)) {
      values.push((single(next + 1) as { value: number }).value)
      next += 2
    }
  }
  return { value, values, isWhole, next, isWord }
}

const isPer = (token: Token | undefined): boolean => token?.key === 'per' || token?.key === 'each'

/**
 * All amounts of a line that say what they are: "2 strands", "1,240 st", "2–3 skeins", "3.1 m", "x2", "skeins: 2", "1 each", "use two".
 * Numbers without such a word are left alone.
 */
export function findAmounts(tokens: readonly Token[], isTaken: (index: number) => boolean): FoundAmount[] {
  const found: FoundAmount[] = []
  const taken = new Set<number>()
  const isFree = (index: number) => index < tokens.length && !taken.has(index) && !isTaken(index)
  const note = (amount: FoundAmount) => {
    found.push(amount)
    for (let index = amount.first; index <= amount.last; index++) taken.add(index)
  }
  for (let at = 0; at < tokens.length; at++) {
    if (!isFree(at)) continue
    const amount = withUnitBehind(tokens, at, isFree) ?? withWordBefore(tokens, at, isFree)
    if (!amount) continue
    note(amount)
    at = amount.last
  }
  for (let at = 0; at < tokens.length; at++) {
    if (!isFree(at)) continue
    const amount = withLabel(tokens, at, isFree)
    if (!amount) continue
    note(amount)
    at = amount.last
  }
  return found
}

/** "of each", "per kit", "each" behind an amount belong to it. */
function endOf(tokens: readonly Token[], last: number, isFree: (index: number) => boolean): { last: number; isEach: boolean } {
  const [one, two] = [tokens[last + 1]?.key, tokens[last + 2]?.key]
  if (!isFree(last + 1)) return { last, isEach: false }
  if (one === 'of' && two === 'each') return { last: last + 2, isEach: true }
  if (one === 'each') return { last: last + 1, isEach: true }
  if (one === 'per' && tokens[last + 2]?.kind === 'word') return { last: last + 2, isEach: false }
  if (one === '(' && two === 'each') return { last: last + 3, isEach: true }
  return { last, isEach: false }
}

/** "two threads", but not "over two threads" nor "11 threads per cm", which are the cloth's. */
function isInNeedle(tokens: readonly Token[], at: number, next: number): boolean {
  const behind = tokens[next + 1]?.key ?? ''
  return tokens[at - 1]?.key !== 'over' && !/^(per|to|in|an|[/])$/.test(behind)
}

function withUnitBehind(tokens: readonly Token[], at: number, isFree: (index: number) => boolean): FoundAmount | null {
  const quantity = quantityAt(tokens, at)
  if (!quantity) return null
  const { value, values, isWhole, next, isWord } = quantity
  for (let index = at; index < next; index++) if (!isFree(index)) return null
  const unit = tokens[next]
  if (!unit || !isFree(next) || unit.cell !== (tokens[at] as Token).cell) return null
  const { key } = unit
  if (strandWords.has(key) && values.every(isStrands)) {
    const end = endOf(tokens, next, isFree)
    return { kind: 'strands', values, isEach: end.isEach, isNamed: true, first: at, last: end.last }
  }
  if ((key === 'thread' || key === 'threads') && values.every(isStrands) && isInNeedle(tokens, at, next)) {
    const end = endOf(tokens, next, isFree)
    return { kind: 'strands', values, isEach: end.isEach, isNamed: true, first: at, last: end.last }
  }
  if (putUpWords.has(key) && value > 0 && value <= mostPutUps) {
    const end = endOf(tokens, next, isFree)
    return { kind: 'put-ups', hundredths: Math.round(value * 100), word: key, first: at, last: end.last }
  }
  if (isPer(unit) && values.every(isStrands) && key === 'each')
    return { kind: 'strands', values, isEach: true, isNamed: false, first: at, last: next }
  if (key === 'of' && tokens[next + 1]?.key === 'each' && values.every(isStrands))
    return { kind: 'strands', values, isEach: true, isNamed: false, first: at, last: next + 1 }
  const lengthUnit = lengthUnits[key]
  if (lengthUnit && !isWord) {
    const tenths = parseThreadLength(`${value} ${lengthUnit}`, 'm')
    if (tenths !== null && tenths > 0) {
      const end = endOf(tokens, next, isFree)
      return { kind: 'length', tenths, first: at, last: end.last }
    }
  }
  if (!isWhole || value > mostStitches) return null
  const phrase = phraseAt(stitchPhrases, tokens, next, (index) => !isFree(index))
  if (phrase && (value > 0 || phrase.count > 0)) {
    let last = next + phrase.count - 1
    // "12 French knots, 1 strand" and "20 half cross stitches": what follows is the next thing.
    if (stitchCountWords.has(tokens[last + 1]?.key ?? '') && isFree(last + 1)) last += 1
    const isCrosses = key === 'x' || key === 'xs'
    if (isCrosses && value <= 20) return { kind: 'put-ups', hundredths: value * 100, word: null, first: at, last: next }
    return { kind: 'stitches', stitch: phrase.means, count: value, first: at, last }
  }
  if (stitchCountWords.has(key)) return { kind: 'stitches', stitch: null, count: value, first: at, last: next }
  if ((key === 'x' || key === '×') && value >= 1) {
    const other = tokens[next + 1]
    const isCode = other !== undefined && (/^0|\d{3}/.test(other.text) || other.kind === 'word')
    if (other?.figure && other.cell === unit.cell && !isCode) return null
    if (value > 20) return { kind: 'stitches', stitch: 'full', count: value, first: at, last: next }
    return at === 0 && !isCode ? null : { kind: 'put-ups', hundredths: value * 100, word: null, first: at, last: next }
  }
  return null
}

/** "use two", "x2", "× 2". */
function withWordBefore(tokens: readonly Token[], at: number, isFree: (index: number) => boolean): FoundAmount | null {
  const token = tokens[at] as Token
  const quantity = quantityAt(tokens, at + 1)
  if (!quantity || !isFree(at + 1) || (tokens[at + 1] as Token).cell !== token.cell) return null
  const { value, values, next } = quantity
  if (/^(use|using|with)$/.test(token.key) && values.every(isStrands) && !/^0|\d{2}/.test((tokens[at + 1] as Token).text)) {
    const unit = tokens[next]?.key ?? ''
    const isNamed = strandWords.has(unit) || unit === 'thread' || unit === 'threads'
    if (token.key === 'with' && !isNamed) return null
    const last = isNamed ? next : next - 1
    const end = endOf(tokens, last, isFree)
    return { kind: 'strands', values, isEach: end.isEach, isNamed, first: at, last: end.last }
  }
  if (/^[x×]$/.test(token.key) && at > 0 && value >= 1 && value <= 20 && !/^0/.test((tokens[at + 1] as Token).text)) {
    const unit = tokens[next]
    if (unit && strandWords.has(unit.key)) return null
    return { kind: 'put-ups', hundredths: Math.round(value * 100), word: null, first: at, last: next - 1 }
  }
  return null
}

/** "strands: 2", "Skeins 3", "sts: 1,240". */
function withLabel(tokens: readonly Token[], at: number, isFree: (index: number) => boolean): FoundAmount | null {
  const token = tokens[at] as Token
  if (token.kind !== 'word') return null
  let last = at
  const isStrand = strandWords.has(token.key)
  const isPutUp = putUpWords.has(token.key)
  const isCount = token.key === 'stitches' || token.key === 'sts'
  const phrase = isStrand || isPutUp || isCount ? null : phraseAt(stitchPhrases, tokens, at, (index) => !isFree(index))
  if (phrase) last = at + phrase.count - 1
  else if (!(isStrand || isPutUp || isCount)) return null
  const hasMark = /^[:=]$/.test(tokens[last + 1]?.text ?? '')
  const from = last + (hasMark ? 2 : 1)
  const quantity = quantityAt(tokens, from)
  if (!quantity || !isFree(from) || (!hasMark && tokens[from]?.cell !== token.cell)) return null
  const { value, values, isWhole, next } = quantity
  if (/^0\d/.test((tokens[from] as Token).text)) return null
  if (isStrand && values.every(isStrands))
    return { kind: 'strands', values, isEach: false, isNamed: true, first: at, last: next - 1 }
  if (isPutUp && hasMark && value > 0 && value <= mostPutUps)
    return { kind: 'put-ups', hundredths: Math.round(value * 100), word: token.key, first: at, last: next - 1 }
  if (isCount && hasMark && isWhole && value <= mostStitches)
    return { kind: 'stitches', stitch: null, count: value, first: at, last: next - 1 }
  return null
}
