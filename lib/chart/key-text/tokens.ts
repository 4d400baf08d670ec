import { parseNumber, parseWholeNumber } from '#lib/quantity/number'
import { textKey } from '#lib/quantity/text-key'
import type { SourceLine } from '../page-text/page-text'
import { nameWords, type PhraseBook } from './vocabulary'

/** A figure as it stands: a range gives its top, and `low` its other end. `isWhole`: digits alone, or with marks of thousands. */
export type Figure = { value: number; low: number | null; isWhole: boolean }

/**
 * The smallest part of a line that means something by itself. `figure`: digits, fractions, ranges; `code`: letters and digits together;
 * `word`; `mark`: one sign that is neither.
 */
export type Token = {
  text: string
  /** Folded for comparing. */
  key: string
  kind: 'figure' | 'code' | 'word' | 'mark'
  figure: Figure | null
  /** What it says as words of letters and digits: `Forget-me-not` is three, a mark none. */
  words: string[]
  /** Which cell of the line it is in, and where it stands in that cell's text. */
  cell: number
  start: number
  end: number
  certainty: number
}

/** No line of a key is longer: what is, is a page that lost its line ends, or nothing for us. */
export const longestLineText = 1_200
/** Nor has a key's table more columns. */
export const mostCells = 60

const fractions = '½¼¾⅓⅔⅛⅜⅝⅞'
/** Letters that stand right behind a figure and are its unit, not a part of a code: `3.1m`, `140w`, `2x`. */
const glued = new Set(
  'm cm mm yd yds y in ins st sts sk sks skn skns ct x w h s strand strands ply skein skeins stitches metres meters yards each bs'.split(
    ' ',
  ),
)

/** And those behind a figure and a hyphen: `28-count`, `2-strand`. */
const behindFigure = new Set('count ct strand strands ply in inch cm yd m stitch stitches skein hpi'.split(' '))

const figure = new RegExp(
  [
    `\\d{1,3}(?:[,.'’\\u202f\\u00a0]\\d{3})+(?![\\p{L}\\d])`,
    `\\d{1,3} [1-9]/\\d{1,2}(?!\\d)`,
    `\\d{1,3} ?[${fractions}]`,
    `[${fractions}]`,
    `[1-9]/[1-9]\\d?(?![\\d/])`,
    `\\d+[.,]\\d+(?![\\d])`,
    `\\d+`,
  ].join('|'),
  'uy',
)
const range = /\s?[-–]\s?/uy
const word = /[\p{L}\p{M}]+(?:['’‘-]?[\p{L}\p{M}\p{N}]+)*/uy
const lettersBehind = /[\p{L}\p{M}]+/uy
const codeBehind = /[\p{L}\p{M}\p{N}]*(?:[-./][\p{L}\p{M}\p{N}]+)*/uy
const space = /\s+/uy
const markWithSelector = /[\s\S](?:\uFE0E|\uFE0F|\p{M})*/uy

function matchAt(pattern: RegExp, text: string, at: number): string | null {
  pattern.lastIndex = at
  return pattern.exec(text)?.[0] ?? null
}

/** `1,240` with three digits after one mark is a thousand; `1,5`, `0.625` and the like are parts. */
export function figureOf(text: string): Figure | null {
  const whole = parseWholeNumber(text)
  if (whole !== null) return { value: whole, low: null, isWhole: true }
  const value = parseNumber(text.replace(/[’']/gu, ' '))
  return value === null || value < 0 ? null : { value, low: null, isWhole: Number.isInteger(value) }
}

/** The tokens of one cell, each character looked at once or twice. */
export function tokensOf(text: string, cell: number, certainty: number): Token[] {
  const tokens: Token[] = []
  const push = (kind: Token['kind'], start: number, end: number, value: Figure | null = null) => {
    const part = text.slice(start, end)
    const words = kind === 'mark' ? [] : kind === 'figure' ? [part] : nameWords(part)
    tokens.push({ text: part, key: textKey(part), kind, figure: value, words, cell, start, end, certainty })
  }
  let at = 0
  while (at < text.length) {
    const gap = matchAt(space, text, at)
    if (gap) {
      at += gap.length
      continue
    }
    const digits = matchAt(figure, text, at)
    if (digits) {
      at = pushFigure(text, at, digits, push)
      continue
    }
    const letters = matchAt(word, text, at)
    if (letters) {
      const times = /^[x×](\d{1,2})$/iu.exec(letters)
      if (times) {
        push('mark', at, at + 1)
        push('figure', at + 1, at + letters.length, figureOf(times[1] as string))
      } else push(/\p{N}/u.test(letters) ? 'code' : 'word', at, at + letters.length)
      at += letters.length
      continue
    }
    const mark = matchAt(markWithSelector, text, at) ?? text.slice(at, at + 1)
    push('mark', at, at + mark.length)
    at += mark.length
  }
  return tokens
}

/** A figure with what is glued to it: a unit, the rest of a code, the other end of a range. */
function pushFigure(
  text: string,
  at: number,
  digits: string,
  push: (kind: Token['kind'], start: number, end: number, value?: Figure | null) => void,
): number {
  const end = at + digits.length
  // "1x2100", "2xIvy Wall": so many of what follows.
  if (digits.length <= 2 && /^[x×](?=\p{N}|\p{Lu}\p{Ll}|$|\s)/u.test(text.slice(end, end + 3))) {
    push('figure', at, end, figureOf(digits))
    push(text.charAt(end) === '×' ? 'mark' : 'word', end, end + 1)
    return end + 1
  }
  const letters = matchAt(lettersBehind, text, end)
  if (letters && glued.has(letters.toLowerCase()) && !/[\p{N}]/u.test(text.charAt(end + letters.length))) {
    push('figure', at, end, figureOf(digits))
    push('word', end, end + letters.length)
    return end + letters.length
  }
  const isPlain = /^\d+$/.test(digits)
  const dash = isPlain || !digits.startsWith('0') ? matchAt(range, text, end) : null
  if (dash && !letters) {
    const other = matchAt(figure, text, end + dash.length)
    const [from, to] = [figureOf(digits), other === null ? null : figureOf(other)]
    const otherEnd = end + dash.length + (other?.length ?? 0)
    const isFree =
      !/[\p{L}\p{N}]/u.test(text.charAt(otherEnd)) || glued.has(matchAt(lettersBehind, text, otherEnd)?.toLowerCase() ?? '')
    if (from && to && from.value < to.value && to.value <= 99 && digits.length <= 4 && isFree && !/^0\d/.test(digits)) {
      push('figure', at, otherEnd, { value: to.value, low: from.value, isWhole: from.isWhole && to.isWhole })
      const unit = matchAt(lettersBehind, text, otherEnd)
      if (!unit) return otherEnd
      push('word', otherEnd, otherEnd + unit.length)
      return otherEnd + unit.length
    }
  }
  const behind = isPlain ? (matchAt(codeBehind, text, end) ?? '') : ''
  // A slash between two numbers is a blend's (0742/0087), not a part of the code.
  const unit = /^[-.]\p{L}+$/u.test(behind) && behindFigure.has(behind.slice(1).toLowerCase())
  const tail = unit || /^\/\d/.test(behind) ? '' : behind.replace(/\/\d.*$/u, '')
  if (tail !== '') {
    push('code', at, end + tail.length)
    return end + tail.length
  }
  push('figure', at, end, figureOf(digits))
  return end
}

/** The tokens of all cells of a line, in order. */
export const lineTokens = ({ cells }: SourceLine): Token[] =>
  cells.flatMap(({ text, certainty }, cell) => tokensOf(text, cell, certainty))

/** What stands between two tokens of one cell, themselves counted, as it is written. */
export function writtenFrom(line: SourceLine, first: Token, last: Token): string {
  if (first.cell === last.cell) return (line.cells[first.cell]?.text ?? '').slice(first.start, last.end)
  return line.cells
    .slice(first.cell, last.cell + 1)
    .map(({ text }, index, parts) =>
      text.slice(index === 0 ? first.start : 0, index === parts.length - 1 ? last.end : text.length).trim(),
    )
    .filter((part) => part !== '')
    .join(' ')
}

/** Marks that may stand inside a phrase: Old Gold, Light; Red (Post); b/s. */
const innerMarks = new Set([',', '(', ')', '-', '–', '/', '.', "'", '’', '&'])

/**
 * The longest phrase of the book that starts at a token and ends with a whole one.
 *
 * @returns how many tokens it takes, and what it means
 */
export function phraseAt<T>(
  book: PhraseBook<T>,
  tokens: readonly Token[],
  at: number,
  isTaken: (index: number) => boolean = () => false,
): { count: number; means: T } | null {
  for (const { words, means } of book.get(tokens[at]?.words[0] ?? '') ?? []) {
    let matched = 0
    let index = at
    while (matched < words.length && index < tokens.length) {
      const token = tokens[index] as Token
      if (isTaken(index) || token.cell !== (tokens[at] as Token).cell) break
      if (token.kind === 'mark') {
        if (!innerMarks.has(token.text)) break
      } else {
        if (!token.words.every((word, offset) => words[matched + offset] === word)) break
        matched += token.words.length
      }
      index += 1
    }
    if (matched === words.length) {
      const closes = (tokens[index]?.text === ')' || false) && tokens.slice(at, index).some(({ text }) => text === '(')
      return { count: index - at + (closes ? 1 : 0), means }
    }
  }
  return null
}
