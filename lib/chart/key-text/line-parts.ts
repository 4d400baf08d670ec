import type { Stitch } from '#lib/thread/stitches'
import type { SourceLine } from '../page-text/page-text'
import { type FoundAmount, findAmounts } from './amounts'
import { type LineContext, shapeOf } from './drafts'
import { phraseAt, type Token, writtenFrom } from './tokens'
import { nameKey } from './vocabulary'
import { namedCodes, stitchPhrases, weakStitchWords } from './words'

const openers = new Set(['(', '[', '{', '<', '"', '“'])
const closers: Record<string, string> = { '(': ')', '[': ']', '{': '}', '<': '>', '"': '"', '“': '”' }
const bullets = new Set(['-', '–', '—', '•', '·', '‣', '*'])
const braces = new Set(['{', '⎧', '⎨', '⎩', '}', '⎫', '⎬', '⎭', '├', '└', '┌', '│', '⌈', '⌊', '⎡', '⎣'])
/** What parts one thing said from the next, or means nothing by itself. */
export const punctuation = new Set([
  ',',
  ';',
  ':',
  '(',
  ')',
  '[',
  ']',
  '{',
  '}',
  '.',
  '-',
  '–',
  '—',
  '+',
  '&',
  '/',
  '=',
  '"',
  "'",
  '“',
  '”',
  '’',
  '‘',
  '|',
  '*',
  '•',
  '·',
  '#',
  '…',
  '_',
  '~',
  '→',
  '>',
  '<',
])
export const codeLabels = new Set(['no', 'nr', 'num', 'number', 'col', 'colour', 'color', 'shade', 'code', 'art', 'ref'])
type Use = 'symbol' | 'maker' | 'line' | 'amount' | 'stitch' | 'code' | 'name' | 'noise' | 'lone'

/** What a line's words may name a thread by. */
export type CodeCandidate = { at: number; last: number; code: string; score: number; isWord: boolean; isListed?: true }

/**
 * The tokens of one line, and what each was taken for: symbol, maker, amount or kind of stitch; what is left may be codes and names. Linear in the
 * tokens but for phrases of the vocabulary.
 */
export class LineParts {
  readonly use: (Use | null)[]
  amounts: FoundAmount[] = []
  readonly makers: { at: number; last: number; maker: string }[] = []
  readonly lines: { at: number; last: number; line: string }[] = []
  worked: { stitches: Stitch[]; certainty: number } | null = null
  symbol: { text: string; certainty: number; isPlain: boolean } | null = null
  isContinued = false

  constructor(
    readonly line: SourceLine,
    readonly source: number,
    readonly tokens: readonly Token[],
    readonly context: LineContext,
    /** False where the symbol stands in a cell of its own that was read already. */
    readonly maySymbol: boolean,
  ) {
    this.use = tokens.map(() => null)
    if (tokens.length === 0) return
    this.findPrefix()
    if (maySymbol) this.findSymbol()
    this.findMakers()
    this.amounts = findAmounts(tokens, (index) => this.use[index] !== null)
    for (const { first, last } of this.amounts) this.mark(first, last, 'amount')
    this.findStitches()
  }

  mark(first: number, last: number, use: Use): void {
    for (let at = first; at <= last; at++) this.use[at] = use
  }

  isFree = (at: number): boolean => at < this.tokens.length && at >= 0 && this.use[at] === null

  text = (at: number): string => this.tokens[at]?.text ?? ''

  /** "Backstitch: 0905 (1)". */
  private findPrefix(): void {
    const phrase = phraseAt(stitchPhrases, this.tokens, 0)
    if (!phrase) return
    const next = this.tokens[phrase.count]
    const isSure =
      next !== undefined &&
      (/^[:–—-]$/.test(next.text) || (next.cell !== this.tokens[0]?.cell && (this.tokens[0]?.text.length ?? 0) > 2))
    const isPlain = !weakStitchWords.has(this.tokens[0]?.key ?? '') || phrase.count > 1
    if (!(isSure || (isPlain && next !== undefined && this.codeScore(phrase.count) >= 2))) return
    this.mark(0, phrase.count - 1, 'stitch')
    this.worked = { stitches: [phrase.means], certainty: this.certaintyOf(0, phrase.count - 1) }
    if (next && /^[:–—-]$/.test(next.text)) this.use[phrase.count] = 'noise'
  }

  certaintyOf(first: number, last: number): number {
    let least = 1
    for (let at = first; at <= last; at++) least = Math.min(least, this.tokens[at]?.certainty ?? 1)
    return least
  }

  private findSymbol(): void {
    const { tokens, context } = this
    const start = this.use.indexOf(null)
    const first = tokens[start]
    if (!first || start < 0) return
    const take = (at: number, last: number, isPlain: boolean) => {
      this.symbol = { text: (tokens[at] as Token).text, certainty: (tokens[at] as Token).certainty, isPlain }
      this.mark(start, last, 'symbol')
      for (let next = last + 1; /^[=:–—-]$/.test(this.text(next)) && tokens[next + 1]; next++) this.use[next] = 'noise'
    }
    if (braces.has(first.text) && tokens[start + 2]?.text !== closers[first.text]) {
      this.use[start] = 'noise'
      this.isContinued = true
      return
    }
    if (
      openers.has(first.text) &&
      tokens[start + 2]?.text === closers[first.text] &&
      [...this.text(start + 1)].length <= 2 &&
      tokens[start + 3]
    ) {
      take(start + 1, start + 2, true)
      return
    }
    const cellText = (this.line.cells[first.cell]?.text ?? '').trim()
    const isOwnCell =
      this.line.cells.length > 1 &&
      first.start === (this.line.cells[first.cell]?.text ?? '').search(/\S/u) &&
      [...cellText].length <= 2
    const next = tokens[start + 1]
    if (!next) return
    const isApart = isOwnCell || next.cell !== first.cell || next.start > first.end
    if (isOwnCell) {
      const lastOfCell = tokens.findLastIndex((token) => token.cell === first.cell)
      const isNumber = first.kind === 'figure'
      const isNamedNext =
        context.hasSymbols === true && (tokens[lastOfCell + 1]?.kind === 'word' || this.bestCodeScore(lastOfCell + 1) >= 1)
      if (isNumber && !isNamedNext && this.codeScore(start) >= this.bestCodeScore(lastOfCell + 1)) return
      if (context.bullets.has(cellText)) {
        this.mark(start, lastOfCell, 'noise')
        return
      }
      this.symbol = { text: cellText, certainty: first.certainty, isPlain: true }
      this.mark(start, lastOfCell, 'symbol')
      return
    }
    if (!isApart) {
      // "+0087" goes on with the line before; "#0311" is only a number sign.
      if (first.text === '+' || first.text === '&') {
        this.isContinued = true
        this.use[start] = 'noise'
      } else if (first.text === '#') this.use[start] = 'noise'
      else if (first.kind === 'mark' && !punctuation.has(first.text)) take(start, start, true)
      return
    }
    if (first.kind === 'mark') {
      if (context.bullets.has(first.text)) {
        this.use[start] = 'noise'
        return
      }
      if (bullets.has(first.text) && context.hasSymbols !== true) {
        this.use[start] = 'noise'
        return
      }
      if (openers.has(first.text) && this.isClosed(start)) return
      if (first.text === '+' || first.text === '&') this.isContinued = context.plusJoins
      take(start, start, !this.isContinued)
      return
    }
    const isShort =
      [...first.text].length === 1 ||
      (first.kind === 'figure' && /^[1-9]\d?$/.test(first.text)) ||
      (first.kind === 'word' && first.text.length === 2 && first.text === first.text.toUpperCase())
    if (!isShort) {
      if (/^(with|and|plus|blended)$/.test(first.key)) this.isContinued = true
      return
    }
    const skip = /^[=:–—-]$/.test(next.text) ? start + 2 : start + 1
    const following = this.codeScore(skip)
    if (first.kind === 'figure') {
      if (/^[x×]$/.test(next.text)) return
      const isNumbered = next.text === '.' || next.text === ')'
      const at = isNumbered ? start + 2 : skip
      if (this.codeScore(at) >= 1.2 && this.codeScore(at) > this.codeScore(start) && tokens[at]?.kind !== 'word')
        take(start, at - 1, !isNumbered)
      else if (
        context.hasSymbols === true &&
        !isNumbered &&
        this.codeScore(at) >= 1 &&
        tokens[at]?.cell === first.cell &&
        /^\d$/.test(first.text)
      )
        take(start, start, true)
      else if (context.hasSymbols === true && !isNumbered && tokens[skip]?.kind === 'word' && this.codeScore(start) < 2.5)
        take(start, start, true)
      return
    }
    const isName = this.wordCodeAt(skip) !== null || this.makerAt(skip) !== null
    if (following >= 1 || isName || (context.hasSymbols === true && tokens[skip]?.kind === 'word')) take(start, start, true)
  }

  private isClosed(at: number): boolean {
    const closer = closers[this.text(at)]
    return this.tokens.some(({ text }, index) => index > at && text === closer)
  }

  private makerAt = (at: number) => phraseAt(this.context.makers, this.tokens, at, (index) => this.use[index] !== null)

  private findMakers(): void {
    const { tokens } = this
    for (let at = 0; at < tokens.length; at++) {
      if (!this.isFree(at)) continue
      const found = this.makerAt(at)
      if (!found) continue
      const last = at + found.count - 1
      this.makers.push({ at, last, maker: found.means })
      this.mark(at, last, 'maker')
      at = last
      const line = this.lineAt(at + 1, found.means)
      if (!line) continue
      this.lines.push({ at: at + 1, last: line.last, line: line.line })
      this.mark(at + 1, line.last, 'line')
      at = line.last
    }
  }

  /** The name of a thread line at a token: one that is known of the maker, or words lines are named with. */
  private lineAt(at: number, maker: string): { line: string; last: number } | null {
    const lines = this.context.known.makers.get(nameKey(maker))?.lines
    let last = at - 1
    const words: string[] = []
    let known: { line: string; last: number } | null = null
    while (words.length < 6 && this.isFree(last + 1) && this.tokens[last + 1]?.kind === 'word') {
      last += 1
      words.push(...(this.tokens[last] as Token).words)
      const line = lines?.get(words.join(' '))
      if (line) known = { line, last }
    }
    return known
  }

  private findStitches(): void {
    const { tokens } = this
    for (let at = 0; at < tokens.length; at++) {
      if (!this.isFree(at)) continue
      const phrase = phraseAt(stitchPhrases, tokens, at, (index) => this.use[index] !== null)
      if (!phrase) continue
      const last = at + phrase.count - 1
      const before = tokens[at - 1]
      const after = tokens[last + 1]
      const isBracketed = before?.text === '(' && after?.text === ')'
      const isOwnCell = before?.cell !== tokens[at]?.cell && after?.cell !== tokens[at]?.cell && at > 0
      const isFor = before?.key === 'for' || before?.key === 'in'
      const isLast =
        after === undefined && (before?.text === ',' || before?.text === '–' || before?.text === '-' || before?.text === ';')
      const isPlain = phrase.count > 1 || !weakStitchWords.has(tokens[at]?.key ?? '')
      if (!(isPlain || isBracketed || isFor || isOwnCell || isLast)) continue
      const held: Stitch[] = this.worked?.stitches ?? []
      this.worked = {
        stitches: held.includes(phrase.means) ? held : [...held, phrase.means],
        certainty: Math.min(this.worked?.certainty ?? 1, this.certaintyOf(at, last)) * (isPlain ? 1 : 0.95),
      }
      this.mark(at, last, 'stitch')
      if (isFor) this.use[at - 1] = 'noise'
      at = last
    }
  }

  /** The maker that holds at a token: the nearest named on the line, else the heading's. */
  private makerFor(at: number): string | null {
    let nearest: string | null = null
    let distance = Number.POSITIVE_INFINITY
    for (const { at: first, last, maker } of this.makers) {
      const gap = first > at ? first - at + 0.5 : at - last
      if (gap < distance) [nearest, distance] = [maker, gap]
    }
    return nearest ?? this.context.maker
  }

  isInBrackets(at: number): boolean {
    return /^[([]$/.test(this.text(at - 1)) && this.tokens[at - 1]?.cell === this.tokens[at]?.cell
  }

  /** How likely a token is a thread's code; under 1 hardly. */
  codeScore(at: number): number {
    const token = this.tokens[at]
    if (!token || (this.use[at] !== null && this.use[at] !== 'code')) return 0
    if (token.kind === 'mark' || token.kind === 'word') return 0
    const { known, shapes } = this.context
    // "4.050" is no figure where a thread has it for its number.
    const isKnownFigure = token.kind === 'figure' && /^\d+[.]\d+$/.test(token.text) && known.byCode.has(token.text)
    if (token.kind === 'figure' ? !isKnownFigure && !/^\d{1,6}$/.test(token.text) : token.text.length > 12) return 0
    const held = known.byCode.get(token.text) ?? known.byCodeKey.get(token.key) ?? []
    const maker = this.makerFor(at)
    const isKnownMaker = maker !== null && known.makers.has(nameKey(maker))
    let score = 0
    if (maker !== null && held.some((thread) => nameKey(thread.maker) === nameKey(maker))) score += 3
    else if (held.length > 0) score += maker === null || !isKnownMaker ? 2 : 0.5
    if (/^0\d{2,}$/.test(token.text)) score += 2
    if (shapes.has(shapeOf(token.text))) score += 1.5
    if (token.kind === 'code') score += /^\p{L}{0,4}[-.]?\d{1,6}\p{L}{0,2}$/u.test(token.text) ? 1.5 : 0.8
    else score += token.text.length >= 3 ? 1 : 0.5
    const before = this.tokens[at - 1]
    if (before && (this.use[at - 1] === 'maker' || this.use[at - 1] === 'line')) score += 1
    if (
      before?.text === '#' ||
      (before && codeLabels.has(before.key)) ||
      (before?.text === '.' && codeLabels.has(this.tokens[at - 2]?.key ?? ''))
    )
      score += 1.5
    if (this.isInBrackets(at)) score -= 1.5
    if (at === 0 || this.use[at - 1] === 'symbol') score += 0.75
    return score
  }

  private bestCodeScore(from: number): number {
    let best = 0
    for (let at = from; at < Math.min(this.tokens.length, from + 12); at++) best = Math.max(best, this.codeScore(at))
    return best
  }

  /** A code that is a word: Ecru, Tarn Blue. */
  wordCodeAt(at: number): { count: number; code: string; score: number } | null {
    const { known, maker: listMaker } = this.context
    const token = this.tokens[at]
    if (token?.kind !== 'word' || !this.isFree(at)) return null
    const phrase = phraseAt(known.codePhrases, this.tokens, at, (index) => this.use[index] !== null)
    if (phrase) {
      const maker = this.makers.length > 0 ? this.makerFor(at) : listMaker
      const held = known.byCode.get(phrase.means) ?? []
      const isOwn = maker !== null && held.some((thread) => nameKey(thread.maker) === nameKey(maker))
      const written = this.written(at, at + phrase.count - 1)
      return { count: phrase.count, code: written, score: isOwn ? 3 : maker === null ? 2 : 1.1 }
    }
    const nextWord = this.tokens[at + 1]
    const isAlone = !(nextWord?.kind === 'word' && this.isFree(at + 1) && nextWord.cell === token.cell)
    if (namedCodes.has(token.key) && isAlone)
      return { count: 1, code: token.text, score: /^(ecru|blanc)$/.test(token.key) ? 1.6 : 1.1 }
    return null
  }

  written = (first: number, last: number): string =>
    writtenFrom(this.line, this.tokens[first] as Token, this.tokens[last] as Token).trim()
}
