import type { Stitch } from '#lib/thread/stitches'
import type { SourceLine } from '../page-text/page-text'
import { type FoundAmount, findAmounts, mostStrands } from './amounts'
import type { ReadField } from './reading'
import { phraseAt, type Token, writtenFrom } from './tokens'
import { nameKey, nameWords, type PhraseBook, type Vocabulary } from './vocabulary'
import { lineWords, namedCodes, sentenceWords, stitchPhrases, weakStitchWords } from './words'

/** A number that says nothing of what it counts; `thread` is the index of the thread it stands behind. */
export type LoneNumber = {
  value: number
  isWhole: boolean
  isBracketed: boolean
  cell: number
  thread: number
  certainty: number
}

/** A thread as one line names it, before what headings say is added. */
export type DraftThread = {
  maker: ReadField<string> | null
  threadLine: ReadField<string> | null
  code: ReadField<string> | null
  name: ReadField<string> | null
  strands: ReadField<number> | null
}

export type DraftAmount = Exclude<FoundAmount, { kind: 'strands' }> & { confidence: number }

/** What was made of one line, before what stands around it is taken into account. */
export type Draft = {
  source: number
  symbol: ReadField<string> | null
  threads: DraftThread[]
  worked: ReadField<Stitch[]> | null
  amounts: DraftAmount[]
  lone: LoneNumber[]
  rest: string[]
  /** It begins with a sign that joins it to the line before. */
  isContinued: boolean
  /** Words right before and right behind the code, of which a maker may be learnt when they come again and again. */
  beside: { before: string | null; behind: string | null }
}

export type LineContext = {
  known: Vocabulary
  /** Makers known, and those learnt from the text. */
  makers: PhraseBook<string>
  /** The maker that headings give. */
  maker: string | null
  threadLine: string | null
  /** Shapes of the codes of this list, by how many of them there are. */
  shapes: ReadonlySet<string>
  /** Whether the lines of this list begin with symbols, as far as is known. */
  hasSymbols: boolean | null
  /** Signs that begin line after line and are bullets. */
  bullets: ReadonlySet<string>
  /** A plus before a line joins it to the line before, and is no symbol. */
  plusJoins: boolean
  /** Whether codes of digits are to be expected at all. */
  hasCodes: boolean
}

/** The shape of a code: `dddd`, `a-dd`. */
export const shapeOf = (code: string): string => code.replace(/\d/g, 'd').replace(/\p{L}/gu, 'a')

const openers = new Set(['(', '[', '{', '<', '"', '“'])
const closers: Record<string, string> = { '(': ')', '[': ']', '{': '}', '<': '>', '"': '"', '“': '”' }
const bullets = new Set(['-', '–', '—', '•', '·', '‣', '*'])
const braces = new Set(['{', '⎧', '⎨', '⎩', '}', '⎫', '⎬', '⎭', '├', '└', '┌', '│', '⌈', '⌊', '⎡', '⎣'])
/** What parts one thing said from the next, or means nothing by itself. */
const punctuation = new Set([
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
const joiners = new Set(['+', '&', '/', 'with', 'and', 'plus', 'w'])
const codeLabels = new Set(['no', 'nr', 'num', 'number', 'col', 'colour', 'color', 'shade', 'code', 'art', 'ref'])
const noise = new Set([
  'of',
  'in',
  'use',
  'using',
  'each',
  'plus',
  'and',
  'with',
  'for',
  'the',
  'a',
  'x',
  'by',
  'colour',
  'color',
  'no',
  'shade',
  'also',
  'then',
  'or',
  'from',
  'need',
  'you',
  'will',
  'thread',
  'threads',
  'floss',
  'approx',
  'about',
  'blend',
  'blended',
  'strand',
  'strands',
])
const leftWords = new Set(['remaining', 'remainder', 'leftover', 'optional', 'leftovers'])

type Use = 'symbol' | 'maker' | 'line' | 'amount' | 'stitch' | 'code' | 'name' | 'noise' | 'lone'

/** One line, or a part of it, read as free text. Linear in its tokens but for phrases of the vocabulary. */
export class FreeReader {
  private readonly use: (Use | null)[]
  private amounts: FoundAmount[] = []
  private readonly makers: { at: number; last: number; maker: string }[] = []
  private readonly lines: { at: number; last: number; line: string }[] = []
  private worked: { stitches: Stitch[]; certainty: number } | null = null
  private symbol: { text: string; certainty: number; isPlain: boolean } | null = null
  private isContinued = false

  constructor(
    private readonly line: SourceLine,
    private readonly source: number,
    private readonly tokens: readonly Token[],
    private readonly context: LineContext,
    /** False where the symbol stands in a cell of its own that was read already. */
    private readonly maySymbol: boolean,
  ) {
    this.use = tokens.map(() => null)
  }

  read(): Draft[] {
    const { tokens } = this
    if (tokens.length === 0) return []
    this.findPrefix()
    if (this.maySymbol) this.findSymbol()
    this.findMakers()
    this.amounts = findAmounts(tokens, (index) => this.use[index] !== null)
    for (const { first, last } of this.amounts) this.mark(first, last, 'amount')
    this.findStitches()
    return this.threads()
  }

  private mark(first: number, last: number, use: Use): void {
    for (let at = first; at <= last; at++) this.use[at] = use
  }
  private isFree = (at: number): boolean => at < this.tokens.length && at >= 0 && this.use[at] === null
  private text = (at: number): string => this.tokens[at]?.text ?? ''

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

  private certaintyOf(first: number, last: number): number {
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

  private isInBrackets(at: number): boolean {
    return /^[([]$/.test(this.text(at - 1)) && this.tokens[at - 1]?.cell === this.tokens[at]?.cell
  }

  /** How likely a token is a thread's code; under 1 hardly. */
  private codeScore(at: number): number {
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
  private wordCodeAt(at: number): { count: number; code: string; score: number } | null {
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

  private written = (first: number, last: number): string =>
    writtenFrom(this.line, this.tokens[first] as Token, this.tokens[last] as Token).trim()

  private threads(): Draft[] {
    const { tokens } = this
    type Candidate = { at: number; last: number; code: string; score: number; isWord: boolean; isListed?: true }
    const candidates: Candidate[] = []
    for (let at = 0; at < tokens.length; at++) {
      if (!this.isFree(at)) continue
      const score = this.codeScore(at)
      if (score >= 1) candidates.push({ at, last: at, code: this.text(at), score, isWord: false })
      else {
        const word = this.wordCodeAt(at)
        if (!word) continue
        candidates.push({ at, last: at + word.count - 1, code: word.code, score: word.score, isWord: true })
        at += word.count - 1
      }
    }
    candidates.push(...this.unknownOfList(candidates))
    candidates.sort((a, b) => a.at - b.at)
    let primary: Candidate | null = null
    for (const candidate of candidates)
      if (!primary || candidate.score > primary.score + (candidate.isWord ? 0.3 : 0)) primary = candidate
    // A word that could be a code is a name where a figure is the code.
    const digits = candidates.filter(({ isWord }) => !isWord)
    if (primary?.isWord && digits.some(({ score }) => score >= 2.5))
      primary = digits.reduce((a, b) => (b.score > a.score ? b : a))
    if (primary && primary.score < 1.2 && !(this.context.hasCodes || this.symbol)) primary = primary.score >= 1 ? primary : null
    if (!primary) return [this.draftOf([{ from: 0, to: tokens.length - 1, candidate: null }])]
    const first = primary
    const others = candidates.filter(
      (candidate) =>
        candidate === first ||
        (candidate.isWord === first.isWord || candidate.score >= 2.5
          ? (candidate.score >= 2 ||
              candidate.isListed ||
              (shapeOf(candidate.code) === shapeOf(first.code) && candidate.score >= 1.2)) &&
            !this.isInBrackets(candidate.at)
          : false),
    )
    const chain: { candidate: Candidate; by: 'join' | 'list' | 'cell' | null }[] = []
    for (const candidate of others) {
      const before = chain.at(-1)?.candidate
      const by = before ? this.linkBetween(before.last, candidate.at) : null
      if (before && by === null) {
        // Two numbers side by side: the likelier is the code.
        if (candidate.score > before.score && candidate === first)
          chain[chain.length - 1] = { candidate, by: chain.at(-1)?.by ?? null }
        continue
      }
      chain.push({ candidate, by })
    }
    if (chain.length > 1) {
      const links = chain.slice(1).map(({ by }) => by)
      const hasCommas = links.includes('list')
      if (links.every((by) => by === 'cell')) return this.apart(chain.map(({ candidate }) => candidate))
      if (hasCommas || (links.includes('join') && this.isListed(chain.map(({ candidate }) => candidate))))
        return this.listed(chain.map(({ candidate }) => candidate))
    }
    const kept = chain.filter(({ by }, at) => at === 0 || by === 'join').map(({ candidate }) => candidate)
    return [this.draftOf(this.segments(kept))]
  }

  /** Among threads listed by their names, those of a name nobody knows: what stands alone between two commas. */
  private unknownOfList(
    known: readonly { at: number; last: number; isWord: boolean }[],
  ): { at: number; last: number; code: string; score: number; isWord: boolean; isListed: true }[] {
    const { tokens } = this
    if (known.filter(({ isWord }) => isWord).length < 2 || !known.every(({ isWord }) => isWord)) return []
    const found: { at: number; last: number; code: string; score: number; isWord: boolean; isListed: true }[] = []
    let start = 0
    for (let end = 0; end <= tokens.length; end++) {
      if (end < tokens.length && this.text(end) !== ',') continue
      const from = start
      start = end + 1
      const isAlone =
        end > from && tokens.slice(from, end).every((token, index) => token.kind === 'word' && this.isFree(from + index))
      const isCapital = /^\p{Lu}/u.test(this.text(from))
      const isTaken = known.some(({ at, last }) => last >= from && at < end)
      if (from > 0 && isAlone && isCapital && !isTaken && end - from <= 4)
        found.push({ at: from, last: end - 1, code: this.written(from, end - 1), score: 1.1, isWord: true, isListed: true })
    }
    return found
  }

  /** How two codes of a line hang together: joined in the needle, listed one after the other, in cells apart, or not at all. */
  private linkBetween(last: number, at: number): 'join' | 'list' | 'cell' | null {
    let isListed = false
    let isCell = false
    let hasWords = 0
    for (let index = last + 1; index < at; index++) {
      const token = this.tokens[index] as Token
      if (token.cell !== (this.tokens[last] as Token).cell) isCell = true
      if (this.use[index] === 'amount') continue
      if (joiners.has(token.key) || (token.key === 'blended' && joiners.has(this.tokens[index + 1]?.key ?? ''))) return 'join'
      if (token.text === ',' || token.text === ';') isListed = true
      else if (token.kind === 'word' && this.use[index] === null) hasWords += 1
    }
    if (isCell && !isListed) return this.tokens[at]?.cell !== this.tokens[last]?.cell && hasWords > 0 ? 'cell' : null
    return isListed ? 'list' : null
  }

  /** "one skein each of 0311 and 0742": a list, though nothing but "and" joins them. */
  private isListed(chain: readonly { at: number; last: number }[]): boolean {
    const isAnd = chain.slice(1).every(({ at }, index) => {
      const between = this.tokens.slice((chain[index]?.last ?? 0) + 1, at).map(({ key }) => key)
      return between.includes('and') || between.includes('&')
    })
    return isAnd && this.amounts.some(({ kind }) => kind === 'put-ups') && !this.amounts.some(({ kind }) => kind === 'strands')
  }

  private segments(kept: readonly { at: number; last: number; code: string; score: number; isWord: boolean }[]) {
    const cuts: number[] = [0]
    for (let index = 1; index < kept.length; index++) {
      const from = (kept[index - 1]?.last ?? 0) + 1
      let cut = kept[index]?.at ?? from
      for (let at = (kept[index]?.at ?? from) - 1; at >= from; at--) {
        if (!joiners.has(this.tokens[at]?.key ?? '') || this.use[at] === 'amount') continue
        cut = at
        break
      }
      if (this.tokens[cut]?.kind === 'mark' || joiners.has(this.tokens[cut]?.key ?? '')) this.use[cut] = 'noise'
      cuts.push(cut)
    }
    return kept.map((candidate, index) => ({
      candidate,
      from: cuts[index] as number,
      to: (cuts[index + 1] ?? this.tokens.length) - 1,
    }))
  }

  /** Lines side by side, each from its own symbol on. */
  private apart(chain: readonly { at: number }[]): Draft[] {
    const starts = chain.map(({ at }, index) => {
      if (index === 0) return 0
      const before = this.tokens[at - 1]
      const isSymbol =
        before && [...before.text].length <= 2 && this.use[at - 1] === null && before.cell !== this.tokens[at - 2]?.cell
      return isSymbol ? at - 1 : at
    })
    return starts.flatMap((start, index) => {
      const end = starts[index + 1] ?? this.tokens.length
      const cells = new Set(this.tokens.slice(start, end).map(({ cell }) => cell))
      const from = Math.min(...cells)
      const part: SourceLine = { ...this.line, cells: this.line.cells.slice(from, Math.max(...cells) + 1) }
      const tokens = this.tokens.slice(start, end).map((token) => ({ ...token, cell: token.cell - from }))
      return new FreeReader(part, this.source, tokens, this.context, true).read().slice(0, 1)
    })
  }

  /** Codes one after the other, each a line of its own with what is said of all. */
  private listed(chain: { at: number; last: number; code: string; score: number; isWord: boolean }[]): Draft[] {
    const firstCode = chain[0]?.at ?? 0
    // What is said before the first is said of all, and so is "one hank of each" behind the last.
    const common = this.amounts.filter(({ first, last }) => first < firstCode || this.tokens[last]?.key === 'each')
    const drafts = chain.map((candidate, index) => {
      const to = (chain[index + 1]?.at ?? this.tokens.length) - 1
      return this.draftOf(
        [{ from: index === 0 ? 0 : candidate.at, to, candidate }],
        common.filter(({ first }) => first < (index === 0 ? 0 : candidate.at) || first > to),
      )
    })
    return drafts
  }

  private draftOf(
    segments: {
      from: number
      to: number
      candidate: { at: number; last: number; code: string; score: number; isWord: boolean } | null
    }[],
    shared: readonly FoundAmount[] = [],
  ): Draft {
    const { source, tokens } = this
    const [start, end] = [segments[0]?.from ?? 0, segments.at(-1)?.to ?? tokens.length - 1]
    const names: { text: string; first: number; last: number; segment: number }[] = []
    const lone: LoneNumber[] = []
    const rest: string[] = []
    for (const { candidate } of segments) if (candidate) this.mark(candidate.at, candidate.last, 'code')
    let symbol = this.symbol && start === 0 ? this.symbol : null
    segments.forEach(({ from, to }, index) => {
      for (let at = from; at <= to; at++) {
        if (!this.isFree(at)) continue
        const token = tokens[at] as Token
        if (token.kind === 'mark') {
          const isSign = !punctuation.has(token.text) && this.maySymbol && symbol === null
          if (isSign) {
            symbol = { text: token.text, certainty: token.certainty, isPlain: false }
            this.use[at] = 'symbol'
          }
          continue
        }
        if (token.kind === 'figure' && token.figure) {
          this.use[at] = 'lone'
          const isBracketed = this.isInBrackets(at)
          lone.push({
            value: token.figure.value,
            isWhole: token.figure.isWhole,
            isBracketed,
            cell: token.cell,
            thread: index,
            certainty: token.certainty,
          })
          continue
        }
        if (codeLabels.has(token.key) && this.isBeforeCode(at)) {
          this.use[at] = 'noise'
          continue
        }
        const run = this.nameRun(at, to)
        this.mark(at, run.last, 'name')
        if (run.text !== '') names.push({ text: run.text, first: run.first, last: run.end, segment: index })
        at = run.last
      }
    })
    const worked = this.worked
    const drafts = segments.map((segment, index): DraftThread => this.threadOf(segment, index, segments.length, names, rest))
    for (const { text } of names) if (text !== '') rest.push(text)
    const within = [...shared, ...this.amounts.filter(({ first }) => first >= start && first <= end)]
    this.giveStrands(within, segments, drafts)
    return {
      source,
      symbol: symbol && {
        value: symbol.text,
        confidence: Math.min(symbol.certainty, symbol.isPlain ? 0.97 : 0.85),
        line: source,
      },
      threads: drafts,
      worked: worked && { value: worked.stitches, confidence: 0.96 * worked.certainty, line: source },
      amounts: within.flatMap((amount) =>
        amount.kind === 'strands' ? [] : [{ ...amount, confidence: Math.min(this.certaintyOf(amount.first, amount.last), 0.96) }],
      ),
      lone,
      rest,
      isContinued: this.isContinued,
      beside: this.beside(segments[0]?.candidate ?? null),
    }
  }

  /** The run of words right before and right behind a code, for learning makers. */
  private beside(candidate: { at: number; last: number } | null): { before: string | null; behind: string | null } {
    if (!candidate) return { before: null, behind: null }
    const runTo = (from: number, step: -1 | 1): string | null => {
      let at = from
      while (this.use[at] === 'name' && this.tokens[at]?.kind === 'word' && Math.abs(at - from) < 3) at += step
      if (at === from || (this.use[at] === 'name' && this.tokens[at]?.kind === 'word')) return null
      return step === 1 ? this.written(from, at - 1) : this.written(at + 1, from)
    }
    return { before: runTo(candidate.at - 1, -1), behind: runTo(candidate.last + 1, 1) }
  }

  private isBeforeCode(at: number): boolean {
    const next = this.text(at + 1) === '.' ? at + 2 : at + 1
    return this.use[next] === 'code'
  }

  /** Words from a token on that make one name, with the signs between them. `end` is the last token of the name, `last` of what was gone over. */
  private nameRun(from: number, to: number): { text: string; first: number; end: number; last: number } {
    const { tokens } = this
    let [end, last, depth] = [from, from, 0]
    const isWord = (at: number) => at <= to && this.isFree(at) && (tokens[at]?.kind === 'word' || tokens[at]?.kind === 'code')
    for (let at = from + 1; at <= to && this.isFree(at) && tokens[at]?.cell === tokens[from]?.cell; at++) {
      const token = tokens[at] as Token
      if (token.kind === 'word' || token.kind === 'code') {
        end = at
        last = at
      } else if (token.kind === 'mark') {
        if (token.text === '(') {
          const close = this.closing(at, to)
          if (close === null || !isWord(at + 1) || this.isRemark(from, at, close)) break
          depth += 1
        } else if (token.text === ')') {
          if (depth === 0) break
          depth -= 1
          end = at
          last = at
        } else if (!/^[,\-–—'’‘.&/]$/u.test(token.text) || !isWord(at + 1)) break
        // A dash with space around it, or a full stop, parts one thing from the next unless only the name goes on.
        else if (/^[–—-]$/.test(token.text) && this.isRemarkBehind(from, at)) break
        else if (token.text === '.' && tokens[at + 1]?.start !== token.end && this.isSentence(at + 1, to)) break
      } else break
    }
    let first = from
    while (
      first <= end &&
      noise.has(tokens[first]?.text ?? '') &&
      (end > first ||
        !this.context.hasCodes ||
        /^(of|in|use|using|each|and|with|for|x|by|no|also|then|or|from)$/.test(tokens[first]?.key ?? ''))
    )
      first += 1
    while (end > first && /^(of|in|and|with|for|use|using|x|the|or|from|each)$/.test(tokens[end]?.key ?? '')) end -= 1
    while (end > first && tokens[end]?.kind === 'mark' && tokens[end]?.text !== ')') end -= 1
    if (first > end) return { text: '', first, end, last }
    return { text: this.written(first, end), first, end, last }
  }

  /** "Shell (door)" is a name and a remark, "Red (Post)" a name. */
  private isRemark(from: number, open: number, close: number): boolean {
    const { byNameKey } = this.context.known
    if (byNameKey.has(nameKey(this.written(from, close)))) return false
    return byNameKey.has(nameKey(this.written(from, open - 1))) || !/^\p{Lu}/u.test(this.text(open + 1))
  }

  /** "Burnt Raven – roof and chimney": small words behind a dash with space around it. */
  private isRemarkBehind(from: number, dash: number): boolean {
    const [before, after] = [this.tokens[dash - 1], this.tokens[dash + 1]]
    const isApart = (before?.end ?? 0) < (this.tokens[dash]?.start ?? 0) && (after?.start ?? 0) > (this.tokens[dash]?.end ?? 0)
    return isApart && /^\p{Lu}/u.test(this.text(from)) && !/^\p{Lu}/u.test(after?.text ?? '')
  }

  private isSentence(from: number, to: number): boolean {
    let words = 0
    for (let at = from; at <= to && at < from + 12; at++) if (sentenceWords.has(this.tokens[at]?.key ?? '')) words += 1
    return words > 0
  }

  private closing(at: number, to: number): number | null {
    for (let index = at + 1; index <= to && index < at + 8; index++)
      if (this.text(index) === ')') return this.isFree(index) ? index : null
    return null
  }

  private threadOf(
    {
      from,
      to,
      candidate,
    }: { from: number; to: number; candidate: { at: number; last: number; code: string; score: number; isWord: boolean } | null },
    index: number,
    count: number,
    names: { text: string; first: number; last: number; segment: number }[],
    rest: string[],
  ): DraftThread {
    const { source, context } = this
    const field = <T>(value: T, confidence: number, first: number, last: number): ReadField<T> => ({
      value,
      confidence: Math.min(confidence, this.certaintyOf(first, last)),
      line: source,
    })
    const own = this.makers.filter(({ at }) => at >= from && at <= to)
    const nearest = candidate ? [...own].sort((a, b) => Math.abs(a.at - candidate.at) - Math.abs(b.at - candidate.at))[0] : own[0]
    const earlier = nearest ?? (index > 0 || own.length === 0 ? this.makers.filter(({ at }) => at < from).at(-1) : undefined)
    const maker = earlier ? field(earlier.maker, nearest ? 0.97 : 0.85, earlier.at, earlier.last) : null
    const line = earlier && this.lines.find(({ at }) => at === earlier.last + 1)
    const threadLine = line ? field(line.line, 0.96, line.at, line.last) : null
    const code = candidate
      ? field(
          candidate.code,
          candidate.score >= 3 ? 0.98 : candidate.score >= 2 ? 0.93 : candidate.score >= 1.5 ? 0.85 : 0.7,
          candidate.at,
          candidate.last,
        )
      : null
    const mine = names.filter(({ segment, text }) => segment === index && text !== '')
    let chosen = mine.find(({ first }) => candidate && first > candidate.last) ?? mine[0]
    if (mine.length > 1 && chosen) {
      const others = mine.filter((name) => name !== chosen)
      const better = others.find(({ text }) => context.known.byNameKey.has(nameKey(text)))
      if (better && !context.known.byNameKey.has(nameKey(chosen.text))) chosen = better
    }
    for (const name of mine) {
      const words = nameWords(name.text)
      const isLine = words.length > 0 && words.every((word) => lineWords.has(word))
      const isLeft = words.every((word) => leftWords.has(word) || noise.has(word))
      if (
        name === chosen &&
        !isLeft &&
        !(
          isLine &&
          (maker !== null || context.maker !== null) &&
          candidate !== null &&
          !context.known.byNameKey.has(nameKey(name.text))
        )
      )
        continue
      if (name === chosen)
        chosen = mine.find(
          (other) =>
            other !== name &&
            !nameWords(other.text).every((word) => lineWords.has(word) || leftWords.has(word) || noise.has(word)),
        )
    }
    // Without a code, names that are not the first belong to the threads of a blend that have none.
    const name = chosen
      ? field(chosen.text, this.nameConfidence(chosen.text, mine.length, candidate !== null), chosen.first, chosen.last)
      : null
    if (chosen) chosen.text = ''
    if (count === 1) for (const other of mine) if (other.text !== '' && other !== chosen) rest.push(other.text)
    if (count === 1) for (const other of mine) other.text = ''
    return { maker, threadLine, code, name, strands: null }
  }

  private nameConfidence(text: string, count: number, hasCode: boolean): number {
    const { known } = this.context
    if (known.byNameKey.has(nameKey(text))) return 0.98
    const length = nameWords(text).length
    return (hasCode ? 0.9 : 0.86) - (count > 1 ? 0.15 : 0) - (length > 5 ? 0.2 : 0)
  }

  private giveStrands(
    amounts: readonly FoundAmount[],
    segments: readonly { from: number; to: number }[],
    threads: DraftThread[],
  ): void {
    const found = amounts.filter((amount) => amount.kind === 'strands')
    const count = threads.length
    for (const amount of found) {
      const certainty = this.certaintyOf(amount.first, amount.last)
      const give = (thread: DraftThread | undefined, value: number, confidence: number) => {
        if (thread && thread.strands === null && value <= mostStrands)
          thread.strands = { value, confidence: Math.min(confidence, certainty), line: this.source }
      }
      const at = Math.max(
        0,
        segments.findIndex(({ from, to }) => amount.first >= from && amount.first <= to),
      )
      const [value = 1] = amount.values
      if (count === 1) {
        const total = amount.values.reduce((sum, one) => sum + one, 0)
        give(threads[0], amount.values.length > 1 ? total : value, amount.values.length > 1 ? 0.6 : amount.isNamed ? 0.97 : 0.9)
      } else if (amount.values.length === count)
        threads.forEach((thread, index) => {
          give(thread, amount.values[index] as number, 0.94)
        })
      else if (amount.isEach) for (const thread of threads) give(thread, value, 0.95)
      else if (found.length > 1) give(threads[at], value, 0.95)
      else if (at === count - 1 || at === 0)
        for (const thread of threads) give(thread, value % count === 0 ? value / count : value, value === count ? 0.72 : 0.5)
    }
  }
}
