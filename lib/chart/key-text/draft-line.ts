import { type FoundAmount, mostStrands } from './amounts'
import type { Draft, DraftThread, LoneNumber } from './drafts'
import { type CodeCandidate, codeLabels, type LineParts, punctuation } from './line-parts'
import type { ReadField } from './reading'
import type { Token } from './tokens'
import { nameKey, nameWords } from './vocabulary'
import { lineWords, sentenceWords } from './words'

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

/** Makes a draft of a line, or of a part of it, whose codes were told: names, remarks, lone numbers, and the strands of each thread. */
export class LineDrafter {
  constructor(private readonly parts: LineParts) {}

  draftOf(
    segments: {
      from: number
      to: number
      candidate: CodeCandidate | null
    }[],
    shared: readonly FoundAmount[] = [],
  ): Draft {
    const { source, tokens } = this.parts
    const [start, end] = [segments[0]?.from ?? 0, segments.at(-1)?.to ?? tokens.length - 1]
    const names: { text: string; first: number; last: number; segment: number }[] = []
    const lone: LoneNumber[] = []
    const rest: string[] = []
    for (const { candidate } of segments) if (candidate) this.parts.mark(candidate.at, candidate.last, 'code')
    let symbol = this.parts.symbol && start === 0 ? this.parts.symbol : null
    segments.forEach(({ from, to }, index) => {
      for (let at = from; at <= to; at++) {
        if (!this.parts.isFree(at)) continue
        const token = tokens[at] as Token
        if (token.kind === 'mark') {
          const isSign = !punctuation.has(token.text) && this.parts.maySymbol && symbol === null
          if (isSign) {
            symbol = { text: token.text, certainty: token.certainty, isPlain: false }
            this.parts.use[at] = 'symbol'
          }
          continue
        }
        if (token.kind === 'figure' && token.figure) {
          this.parts.use[at] = 'lone'
          const isBracketed = this.parts.isInBrackets(at)
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
          this.parts.use[at] = 'noise'
          continue
        }
        const run = this.nameRun(at, to)
        this.parts.mark(at, run.last, 'name')
        if (run.text !== '') names.push({ text: run.text, first: run.first, last: run.end, segment: index })
        at = run.last
      }
    })
    const worked = this.parts.worked
    const drafts = segments.map((segment, index): DraftThread => this.threadOf(segment, index, segments.length, names, rest))
    for (const { text } of names) if (text !== '') rest.push(text)
    const within = [...shared, ...this.parts.amounts.filter(({ first }) => first >= start && first <= end)]
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
        amount.kind === 'strands'
          ? []
          : [{ ...amount, confidence: Math.min(this.parts.certaintyOf(amount.first, amount.last), 0.96) }],
      ),
      lone,
      rest,
      isContinued: this.parts.isContinued,
      beside: this.beside(segments[0]?.candidate ?? null),
    }
  }

  /** The run of words right before and right behind a code, for learning makers. */
  private beside(candidate: { at: number; last: number } | null): { before: string | null; behind: string | null } {
    if (!candidate) return { before: null, behind: null }
    const runTo = (from: number, step: -1 | 1): string | null => {
      let at = from
      while (this.parts.use[at] === 'name' && this.parts.tokens[at]?.kind === 'word' && Math.abs(at - from) < 3) at += step
      if (at === from || (this.parts.use[at] === 'name' && this.parts.tokens[at]?.kind === 'word')) return null
      return step === 1 ? this.parts.written(from, at - 1) : this.parts.written(at + 1, from)
    }
    return { before: runTo(candidate.at - 1, -1), behind: runTo(candidate.last + 1, 1) }
  }

  private isBeforeCode(at: number): boolean {
    const next = this.parts.text(at + 1) === '.' ? at + 2 : at + 1
    return this.parts.use[next] === 'code'
  }

  /** Words from a token on that make one name, with the signs between them. `end` is the last token of the name, `last` of what was gone over. */
  private nameRun(from: number, to: number): { text: string; first: number; end: number; last: number } {
    const { tokens } = this.parts
    let [end, last, depth] = [from, from, 0]
    const isWord = (at: number) =>
      at <= to && this.parts.isFree(at) && (tokens[at]?.kind === 'word' || tokens[at]?.kind === 'code')
    for (let at = from + 1; at <= to && this.parts.isFree(at) && tokens[at]?.cell === tokens[from]?.cell; at++) {
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
        !this.parts.context.hasCodes ||
        /^(of|in|use|using|each|and|with|for|x|by|no|also|then|or|from)$/.test(tokens[first]?.key ?? ''))
    )
      first += 1
    while (end > first && /^(of|in|and|with|for|use|using|x|the|or|from|each)$/.test(tokens[end]?.key ?? '')) end -= 1
    while (end > first && tokens[end]?.kind === 'mark' && tokens[end]?.text !== ')') end -= 1
    if (first > end) return { text: '', first, end, last }
    return { text: this.parts.written(first, end), first, end, last }
  }

  /** "Shell (door)" is a name and a remark, "Red (Post)" a name. */
  private isRemark(from: number, open: number, close: number): boolean {
    const { byNameKey } = this.parts.context.known
    if (byNameKey.has(nameKey(this.parts.written(from, close)))) return false
    return byNameKey.has(nameKey(this.parts.written(from, open - 1))) || !/^\p{Lu}/u.test(this.parts.text(open + 1))
  }

  /** "Burnt Raven – roof and chimney": small words behind a dash with space around it. */
  private isRemarkBehind(from: number, dash: number): boolean {
    const [before, after] = [this.parts.tokens[dash - 1], this.parts.tokens[dash + 1]]
    const isApart =
      (before?.end ?? 0) < (this.parts.tokens[dash]?.start ?? 0) && (after?.start ?? 0) > (this.parts.tokens[dash]?.end ?? 0)
    return isApart && /^\p{Lu}/u.test(this.parts.text(from)) && !/^\p{Lu}/u.test(after?.text ?? '')
  }

  private isSentence(from: number, to: number): boolean {
    let words = 0
    for (let at = from; at <= to && at < from + 12; at++) if (sentenceWords.has(this.parts.tokens[at]?.key ?? '')) words += 1
    return words > 0
  }

  private closing(at: number, to: number): number | null {
    for (let index = at + 1; index <= to && index < at + 8; index++)
      if (this.parts.text(index) === ')') return this.parts.isFree(index) ? index : null
    return null
  }

  private threadOf(
    { from, to, candidate }: { from: number; to: number; candidate: CodeCandidate | null },
    index: number,
    count: number,
    names: { text: string; first: number; last: number; segment: number }[],
    rest: string[],
  ): DraftThread {
    const { source, context } = this.parts
    const field = <T>(value: T, confidence: number, first: number, last: number): ReadField<T> => ({
      value,
      confidence: Math.min(confidence, this.parts.certaintyOf(first, last)),
      line: source,
    })
    const own = this.parts.makers.filter(({ at }) => at >= from && at <= to)
    const nearest = candidate ? [...own].sort((a, b) => Math.abs(a.at - candidate.at) - Math.abs(b.at - candidate.at))[0] : own[0]
    const earlier =
      nearest ?? (index > 0 || own.length === 0 ? this.parts.makers.filter(({ at }) => at < from).at(-1) : undefined)
    const maker = earlier ? field(earlier.maker, nearest ? 0.97 : 0.85, earlier.at, earlier.last) : null
    const line = earlier && this.parts.lines.find(({ at }) => at === earlier.last + 1)
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
    const { known } = this.parts.context
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
      const certainty = this.parts.certaintyOf(amount.first, amount.last)
      const give = (thread: DraftThread | undefined, value: number, confidence: number) => {
        if (thread && thread.strands === null && value <= mostStrands)
          thread.strands = { value, confidence: Math.min(confidence, certainty), line: this.parts.source }
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
