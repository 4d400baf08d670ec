import { lineText, type SourceCell, type SourceLine } from '../page-text/page-text'
import { type Column, headerOf } from './columns'
import { shapeOf } from './drafts'
import { factsOf } from './facts'
import { type Heading, headingOf, isProse } from './headings'
import type { Lesson } from './lesson'
import type { FoundFact } from './reading'
import { titleAndDesigner } from './title-facts'
import { leadsOn } from './titles'
import { lineTokens, longestLineText, mostCells, phraseAt, type Token } from './tokens'
import { nameKey, nameWords, type Phrase, type Vocabulary } from './vocabulary'

/** A text of more lines than this is no key; what stands beyond is left unread. */
const mostLines = 20_000

/** What was found out about one line by itself. */
export type Looked = {
  line: SourceLine
  text: string
  tokens: Token[]
  isBlank: boolean
  isTooLong: boolean
  header: (Column | null)[] | null
  facts: FoundFact[]
  heading: Heading
  isProse: boolean
  /** How likely it names threads; from 2 on it does. */
  score: number
  /** How much the likeliest code on it looks like one. */
  best: number
  /** Of its type, where the page tells it. */
  heightPt: number | null
}

/** The height of a cell's type, where it came with the file: a photograph's letters have none that can be told so well. */
export const typeHeight = ({ box, certainty }: SourceCell): number | null =>
  box && certainty === 1 ? box.bottom - box.top : null

/** A label in a cell of its own has no colon: "Title" and beside it the title. */
function withLabel({ cells }: SourceLine): string {
  const said = cells.map(({ text }) => text.trim()).filter((text) => text !== '')
  const [label = '', value = ''] = said
  const isLabel = said.length === 2 && labelAlone.test(label) && !labelAlone.test(value)
  return isLabel ? `${label}: ${value}` : cells.map(({ text }) => text).join(' ')
}
const labelAlone =
  /^(?:title|name|design(?:er|ed by)?|chart(?:ed by)?|artist|author|(?:design |stitch |finished )?(?:size|count|area)|fabric|cloth|ground|material)$/iu

/**
 * The lines of a text, each looked at by itself and then by what they have in common: what is wrapped is joined, shapes of codes are learnt,
 * and each is told how likely it names threads.
 */
export class LookedLines {
  readonly looked: Looked[]
  private readonly usualPt: number | null
  makers: Map<string, Phrase<string>[]>
  shapes = new Set<string>()
  lastKeyish = -1
  isKeyish = (at: number): boolean => (this.looked[at]?.score ?? 0) >= 2

  constructor(
    lines: readonly SourceLine[],
    readonly known: Vocabulary,
    lessons: readonly Lesson[],
  ) {
    this.makers = new Map([...known.makerPhrases].map(([word, phrases]) => [word, [...phrases]]))
    for (const lesson of lessons) if (lesson.kind === 'maker') this.learnMaker(lesson.maker)
    for (const { name } of known.makers.values()) this.learnMaker(name, `${name}s`)
    this.looked = lines.slice(0, mostLines).map((line) => this.look(line))
    this.usualPt = this.usualHeightPt()
    this.joinLarge()
    this.joinNames()
    this.learnShapes()
    for (const looked of this.looked) looked.score = this.score(looked)
    this.raiseAlike()
    this.lastKeyish = this.looked.findLastIndex((_, at) => this.isKeyish(at))
  }

  /** @param written  as it may stand in the text: Brindlequay's */
  learnMaker(maker: string, written = maker): void {
    const words = nameWords(written)
    const first = words[0]
    if (first === undefined || words.length > 5) return
    const held = this.makers.get(first) ?? []
    if (held.some((phrase) => phrase.words.join(' ') === words.join(' '))) return
    this.makers.set(
      first,
      [...held, { words, means: maker }].sort((a, b) => b.words.length - a.words.length),
    )
  }

  private look(line: SourceLine): Looked {
    const text = lineText(line)
    const isTooLong = text.length > longestLineText || line.cells.length > mostCells
    const tokens = isTooLong ? [] : lineTokens(line)
    const isBlank =
      !isTooLong &&
      (tokens.length === 0 || (tokens.length >= 3 && tokens.every(({ text: mark }) => /^[-–—=_*.|+:~]$/u.test(mark))))
    const heading = headingOf(isTooLong ? [] : tokens, this.makers, this.known)
    return {
      line,
      text,
      tokens,
      isBlank,
      isTooLong,
      header: isTooLong || isBlank ? null : headerOf(line, this.known),
      facts: isTooLong || isBlank ? [] : factsOf(withLabel(line)),
      heading,
      isProse: isProse(tokens),
      score: 0,
      best: 0,
      heightPt: line.cells.reduce<number | null>((most, cell) => {
        const height = /\p{L}{2}/u.test(cell.text) ? typeHeight(cell) : null
        return height === null ? most : Math.max(most ?? 0, height)
      }, null),
    }
  }

  /** The height of most lines' type, where the page tells it. */
  private usualHeightPt(): number | null {
    const heights = this.looked.flatMap(({ heightPt }) => (heightPt === null ? [] : [heightPt])).sort((a, b) => a - b)
    return heights[heights.length >> 1] ?? null
  }

  /** A title wrapped over lines of large type is one line, the first of them. */
  private joinLarge(): void {
    for (let at = 0; at < this.looked.length - 1; at++) {
      const first = this.looked[at] as Looked
      if (!this.isLarge(first)) continue
      let whole = first.line
      for (let next = at + 1; next < Math.min(this.looked.length, at + 4); next++) {
        const { line, heightPt, isTooLong } = this.looked[next] as Looked
        const isSame = heightPt !== null && Math.abs(heightPt - (first.heightPt as number)) < heightPt * 0.03
        if (!isSame || isTooLong || whole.cells.length !== 1 || line.cells.length !== 1 || line.page !== whole.page) break
        const [one, other] = [whole.cells[0], line.cells[0]] as [SourceCell, SourceCell]
        if (!leadsOn(one.text, other.text)) break
        whole = { ...whole, cells: [{ ...one, text: `${one.text.trim()} ${other.text.trim()}` }] }
        this.looked[next] = {
          ...(this.looked[next] as Looked),
          isBlank: true,
          tokens: [],
          facts: [],
          header: null,
        }
      }
      if (whole !== first.line) this.looked[at] = { ...this.look(whole), heightPt: first.heightPt }
    }
  }

  /** "Designed by Brackwater" and below it "Samplers": a name that had no room on its line. */
  private joinNames(): void {
    for (let at = 0; at < this.looked.length - 1; at++) {
      const [first, second] = [this.looked[at], this.looked[at + 1]] as [Looked, Looked]
      const [one, other] = [first.line.cells[0], second.line.cells[0]]
      if (!one?.box || !other?.box || first.line.cells.length !== 1 || second.line.cells.length !== 1) continue
      if (first.heightPt === null || second.heightPt === null || first.line.page !== second.line.page) continue
      const isBy = first.facts.some(({ fact }) => fact === 'designer') || titleAndDesigner(first.text.trim()) !== null
      if (!isBy || second.facts.length > 0 || second.heading.makers.length > 0) continue
      const { box } = one
      const isBelow =
        Math.abs(first.heightPt - second.heightPt) < first.heightPt * 0.03 &&
        Math.abs(other.box.left - box.left) < first.heightPt * 0.3 &&
        other.box.top - box.bottom < first.heightPt * 0.7
      if (!isBelow || !/^(?:\p{Lu}[\p{L}’'-]+[ :.]?){1,2}$/u.test(other.text.trim())) continue
      // The next word would have gone past all that stands there.
      const wordPt = ((other.box.right - other.box.left) * (other.text.split(' ')[0] as string).length) / other.text.length
      const reach = Math.max(
        ...this.looked.slice(Math.max(0, at - 3), at + 8).flatMap(({ line }) => {
          const [cell] = line.cells
          return cell?.box && line.cells.length === 1 && Math.abs(cell.box.left - box.left) < 2 ? [cell.box.right] : []
        }),
      )
      if (box.right + wordPt + first.heightPt * 0.2 < reach) continue
      const text = `${one.text.trim()} ${other.text.trim()}`
      this.looked[at] = { ...this.look({ ...first.line, cells: [{ ...one, text }] }), heightPt: first.heightPt }
      this.looked[at + 1] = { ...second, isBlank: true, tokens: [], facts: [], header: null }
    }
  }

  /** In larger type than the rest: no line of a key. */
  isLarge({ heightPt }: Pick<Looked, 'heightPt'>): boolean {
    return heightPt !== null && this.usualPt !== null && heightPt > this.usualPt * 1.3
  }

  /** Shapes that codes have here: of those that are known, or have noughts before them. */
  learnShapes(): void {
    const counts = new Map<string, number>()
    let all = 0
    for (const { tokens, facts } of this.looked) {
      if (facts.length > 0) continue
      for (const token of tokens) {
        if (token.kind !== 'figure' && token.kind !== 'code') continue
        if (!/\d/.test(token.text) || token.text.length < 2 || token.text.length > 12) continue
        if (!this.known.byCode.has(token.text) && !/^0\d{2,}$/.test(token.text)) continue
        const isPlainSmall = /^\d{1,2}$/.test(token.text)
        if (isPlainSmall) continue
        counts.set(shapeOf(token.text), (counts.get(shapeOf(token.text)) ?? 0) + 1)
        all += 1
      }
    }
    for (const [shape, count] of counts) if (count >= 2 && count / all >= 0.15) this.shapes.add(shape)
  }

  /** How likely a line names threads. */
  score(looked: Looked): number {
    const { tokens, line, facts, heading, isProse: isSentence, isBlank, isTooLong, header, text } = looked
    if (isBlank || isTooLong || header || this.isLarge(looked)) return 0
    if (/©|https?:|www\.|@\w|\btel\b|\bphone\b|\bcopyright\b|\bisbn\b|\bprice\b|[£$€]\d/iu.test(text)) return -2
    let score = 0
    let best = 0
    let strong = 0
    for (const [index, token] of tokens.entries()) {
      if (index > 60) break
      if (token.kind === 'mark' || token.kind === 'word') continue
      if (token.kind === 'figure' && !/^\d{1,6}$/.test(token.text)) continue
      let one =
        token.kind === 'figure'
          ? token.text.length >= 3
            ? 0.8
            : 0.4
          : /^\p{L}{0,4}[-.]?\d{1,6}\p{L}{0,2}$/u.test(token.text)
            ? 0.8
            : 0.2
      const held = this.known.byCode.get(token.text)
      if (held) one += token.text.length >= 3 ? 1.6 : 0.7
      if (held && heading.makers.some(({ maker }) => held.some((thread) => nameKey(thread.maker) === nameKey(maker)))) one += 0.8
      if (/^0\d{2,}$/.test(token.text)) one += 1
      if (this.shapes.has(shapeOf(token.text))) one += 1.2
      if (one > best) best = one
      if (one >= 1.8) strong += 1
    }
    score += best
    looked.best = best
    const [first, second] = tokens
    const isMark = first?.kind === 'mark' && second !== undefined && !/^[("'“[]$/u.test(first.text)
    const isLetter = first !== undefined && [...first.text].length === 1 && first.kind !== 'mark' && second !== undefined
    const cell = (line.cells[0]?.text ?? '').trim()
    const isSignCell = line.cells.length > 1 && cell !== '' && [...cell].length <= 2
    if (isSignCell || (isMark && (second.start > first.end || second.cell !== first.cell))) score += 1
    else if (isLetter && best >= 0.8) score += 0.6
    if (heading.makers.length > 0) score += 0.8
    if (heading.strands.length > 0) score += 0.5
    if (/\b(skeins?|sks?|hanks?|spools?|reels?|strands?|sts?|stitches)\b/iu.test(text) && /\d|½|\b(one|two|three)\b/iu.test(text))
      score += 0.7
    else if (/\d\s?(m|yds?|yards?|metres?)\b/iu.test(text)) score += 0.7
    if (/^\d{1,2} ?[x×] ?\p{Lu}/u.test(text)) score += 0.8
    if (/\b(published|printing|printed|edition|number of colou?rs|skill|chart no|leaflet no|page|design no)\b/iu.test(text))
      score -= 1.5
    const isNamed = tokens.some((_, index) => index < 8 && (phraseAt(this.known.namePhrases, tokens, index)?.count ?? 0) > 0)
    const isWordCode = tokens.some(
      (token, index) =>
        index < 12 && (phraseAt(this.known.codePhrases, tokens, index) !== null || /^(ecru|blanc)$/.test(token.key)),
    )
    if (isNamed) score += 0.6
    if (isWordCode) score += 1
    if (/^(symbol|sym)\b.*:/iu.test(text)) score += 1
    const isSupply =
      heading.makers.length > 0 && (strong >= 2 || (/\bskeins?\b/iu.test(text) && !heading.isSaid && heading.left.length > 0))
    if (isSentence && !isSupply) score -= 1.6
    else if (isSentence) score += 0.5
    if (/\b(needles?|hoop|scissors|fabric|cloth|instructions|piece of|buttons?|frame|tape)\b/iu.test(text) && strong === 0)
      score -= 1.5
    if (facts.length > 0) score -= facts.some(({ fact }) => fact !== 'count' && fact !== 'over' && fact !== 'weave') ? 3 : 1.2
    return score
  }

  /** Lines alike one below the other, with a code and words each, are a key though nobody knows its threads. */
  raiseAlike(): void {
    const isLikely = (at: number, cells: number) => {
      const { score, best, line } = this.looked[at] ?? { score: 0, best: 0, line: { cells: [] } }
      return score >= 1.4 && best >= 0.4 && line.cells.length === cells && cells >= 2
    }
    const raised: number[] = []
    for (const [at, { score, line }] of this.looked.entries()) {
      const count = line.cells.length
      if (score >= 2 || !isLikely(at, count)) continue
      if ([at - 2, at - 1, at].some((from) => [0, 1, 2].every((step) => isLikely(from + step, count)))) raised.push(at)
    }
    for (const at of raised) (this.looked[at] as Looked).score = 2
  }

  nextOf(at: number, step: 1 | -1 = 1): number | null {
    for (let next = at + step; next >= 0 && next < this.looked.length && Math.abs(next - at) < 12; next += step)
      if (!this.looked[next]?.isBlank) return next
    return null
  }
}
