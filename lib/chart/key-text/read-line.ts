import type { SourceLine } from '../page-text/page-text'
import { LineDrafter } from './draft-line'

import { type Draft, type LineContext, shapeOf } from './drafts'
import { type CodeCandidate, LineParts } from './line-parts'
import type { Token } from './tokens'

const joiners = new Set(['+', '&', '/', 'with', 'and', 'plus', 'w'])
/** One line, or a part of it, read as free text: which of its words are codes, and how they hang together. */
export class FreeReader {
  private readonly parts: LineParts
  private readonly drafter: LineDrafter

  constructor(
    line: SourceLine,
    source: number,
    tokens: readonly Token[],
    context: LineContext,
    /** False where the symbol stands in a cell of its own that was read already. */
    maySymbol: boolean,
  ) {
    this.parts = new LineParts(line, source, tokens, context, maySymbol)
    this.drafter = new LineDrafter(this.parts)
  }

  read(): Draft[] {
    return this.parts.tokens.length === 0 ? [] : this.threads()
  }

  private threads(): Draft[] {
    const { tokens } = this.parts
    const candidates: CodeCandidate[] = []
    for (let at = 0; at < tokens.length; at++) {
      if (!this.parts.isFree(at)) continue
      const score = this.parts.codeScore(at)
      if (score >= 1) candidates.push({ at, last: at, code: this.parts.text(at), score, isWord: false })
      else {
        const word = this.parts.wordCodeAt(at)
        if (!word) continue
        candidates.push({ at, last: at + word.count - 1, code: word.code, score: word.score, isWord: true })
        at += word.count - 1
      }
    }
    candidates.push(...this.unknownOfList(candidates))
    candidates.sort((a, b) => a.at - b.at)
    let primary: CodeCandidate | null = null
    for (const candidate of candidates)
      if (!primary || candidate.score > primary.score + (candidate.isWord ? 0.3 : 0)) primary = candidate
    // A word that could be a code is a name where a figure is the code.
    const digits = candidates.filter(({ isWord }) => !isWord)
    if (primary?.isWord && digits.some(({ score }) => score >= 2.5))
      primary = digits.reduce((a, b) => (b.score > a.score ? b : a))
    if (primary && primary.score < 1.2 && !(this.parts.context.hasCodes || this.parts.symbol))
      primary = primary.score >= 1 ? primary : null
    if (!primary) return [this.drafter.draftOf([{ from: 0, to: tokens.length - 1, candidate: null }])]
    const first = primary
    const others = candidates.filter(
      (candidate) =>
        candidate === first ||
        (candidate.isWord === first.isWord || candidate.score >= 2.5
          ? (candidate.score >= 2 ||
              candidate.isListed ||
              (shapeOf(candidate.code) === shapeOf(first.code) && candidate.score >= 1.2)) &&
            !this.parts.isInBrackets(candidate.at)
          : false),
    )
    const chain: { candidate: CodeCandidate; by: 'join' | 'list' | 'cell' | null }[] = []
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
    return [this.drafter.draftOf(this.segments(kept))]
  }

  /** Among threads listed by their names, those of a name nobody knows: what stands alone between two commas. */
  private unknownOfList(known: readonly { at: number; last: number; isWord: boolean }[]): CodeCandidate[] {
    const { tokens } = this.parts
    if (known.filter(({ isWord }) => isWord).length < 2 || !known.every(({ isWord }) => isWord)) return []
    const found: CodeCandidate[] = []
    let start = 0
    for (let end = 0; end <= tokens.length; end++) {
      if (end < tokens.length && this.parts.text(end) !== ',') continue
      const from = start
      start = end + 1
      const isAlone =
        end > from && tokens.slice(from, end).every((token, index) => token.kind === 'word' && this.parts.isFree(from + index))
      const isCapital = /^\p{Lu}/u.test(this.parts.text(from))
      const isTaken = known.some(({ at, last }) => last >= from && at < end)
      if (from > 0 && isAlone && isCapital && !isTaken && end - from <= 4)
        found.push({ at: from, last: end - 1, code: this.parts.written(from, end - 1), score: 1.1, isWord: true, isListed: true })
    }
    return found
  }

  /** How two codes of a line hang together: joined in the needle, listed one after the other, in cells apart, or not at all. */
  private linkBetween(last: number, at: number): 'join' | 'list' | 'cell' | null {
    let isListed = false
    let isCell = false
    let hasWords = 0
    for (let index = last + 1; index < at; index++) {
      const token = this.parts.tokens[index] as Token
      if (token.cell !== (this.parts.tokens[last] as Token).cell) isCell = true
      if (this.parts.use[index] === 'amount') continue
      if (joiners.has(token.key) || (token.key === 'blended' && joiners.has(this.parts.tokens[index + 1]?.key ?? '')))
        return 'join'
      if (token.text === ',' || token.text === ';') isListed = true
      else if (token.kind === 'word' && this.parts.use[index] === null) hasWords += 1
    }
    if (isCell && !isListed) return this.parts.tokens[at]?.cell !== this.parts.tokens[last]?.cell && hasWords > 0 ? 'cell' : null
    return isListed ? 'list' : null
  }

  /** "one skein each of 0311 and 0742": a list, though nothing but "and" joins them. */
  private isListed(chain: readonly { at: number; last: number }[]): boolean {
    const isAnd = chain.slice(1).every(({ at }, index) => {
      const between = this.parts.tokens.slice((chain[index]?.last ?? 0) + 1, at).map(({ key }) => key)
      return between.includes('and') || between.includes('&')
    })
    return (
      isAnd &&
      this.parts.amounts.some(({ kind }) => kind === 'put-ups') &&
      !this.parts.amounts.some(({ kind }) => kind === 'strands')
    )
  }

  private segments(kept: readonly CodeCandidate[]) {
    const cuts: number[] = [0]
    for (let index = 1; index < kept.length; index++) {
      const from = (kept[index - 1]?.last ?? 0) + 1
      let cut = kept[index]?.at ?? from
      for (let at = (kept[index]?.at ?? from) - 1; at >= from; at--) {
        if (!joiners.has(this.parts.tokens[at]?.key ?? '') || this.parts.use[at] === 'amount') continue
        cut = at
        break
      }
      if (this.parts.tokens[cut]?.kind === 'mark' || joiners.has(this.parts.tokens[cut]?.key ?? '')) this.parts.use[cut] = 'noise'
      cuts.push(cut)
    }
    return kept.map((candidate, index) => ({
      candidate,
      from: cuts[index] as number,
      to: (cuts[index + 1] ?? this.parts.tokens.length) - 1,
    }))
  }

  /** Lines side by side, each from its own symbol on. */
  private apart(chain: readonly { at: number }[]): Draft[] {
    const starts = chain.map(({ at }, index) => {
      if (index === 0) return 0
      const before = this.parts.tokens[at - 1]
      const isSymbol =
        before &&
        [...before.text].length <= 2 &&
        this.parts.use[at - 1] === null &&
        before.cell !== this.parts.tokens[at - 2]?.cell
      return isSymbol ? at - 1 : at
    })
    return starts.flatMap((start, index) => {
      const end = starts[index + 1] ?? this.parts.tokens.length
      const cells = new Set(this.parts.tokens.slice(start, end).map(({ cell }) => cell))
      const from = Math.min(...cells)
      const part: SourceLine = { ...this.parts.line, cells: this.parts.line.cells.slice(from, Math.max(...cells) + 1) }
      const tokens = this.parts.tokens.slice(start, end).map((token) => ({ ...token, cell: token.cell - from }))
      return new FreeReader(part, this.parts.source, tokens, this.parts.context, true).read().slice(0, 1)
    })
  }

  /** Codes one after the other, each a line of its own with what is said of all. */
  private listed(chain: CodeCandidate[]): Draft[] {
    const firstCode = chain[0]?.at ?? 0
    // What is said before the first is said of all, and so is "one hank of each" behind the last.
    const common = this.parts.amounts.filter(({ first, last }) => first < firstCode || this.parts.tokens[last]?.key === 'each')
    const drafts = chain.map((candidate, index) => {
      const to = (chain[index + 1]?.at ?? this.parts.tokens.length) - 1
      return this.drafter.draftOf(
        [{ from: index === 0 ? 0 : candidate.at, to, candidate }],
        common.filter(({ first }) => first < (index === 0 ? 0 : candidate.at) || first > to),
      )
    })
    return drafts
  }
}
