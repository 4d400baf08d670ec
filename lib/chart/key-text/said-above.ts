import type { Stitch } from '#lib/thread/stitches'
import { type Heading, unknownMaker } from './headings'
import type { Looked, LookedLines } from './looked-lines'
import type { Carried, OpenDesign, OpenDesigns, SaidStrands } from './open-designs'
import { sentenceWords } from './words'

/** A sentence that says the strands of one part of the design, or of how to begin a thread: nothing of the lines of the key. */
const isOfAPart = (text: string): boolean =>
  /\b(?:loop|fasten|anchor|waste knot)\b/iu.test(text) ||
  (/\bthe (?!(?:designs?|models?|cross(?:es)?|whole|charts?|sampler|piece|picture|embroidery|work|stitch(?:es|ing)?|needle|model)\b)\p{L}+(?: (?:and |the )*\p{L}+){0,3} (?:in|with|using) (?:\d|one|two|three|a single)\b/iu.test(
    text,
  ) &&
    !/\b(?:throughout|everything|everywhere|unless)\b/iu.test(text))

/** Words of a line that says something, and is no heading. */
const statementWords = new Set('are is those from used all numbers were was'.split(' '))

/** What headings and sentences say of the lines below them, until others do: makers, kinds of stitch, strands. */
export class SaidAbove {
  // What headings say, until others do.
  carried: Carried | null = null
  section: { stitches: Stitch[]; line: number } | null = null
  sectionStrands: SaidStrands | null = null
  readonly strandsFor = new Map<Stitch | 'all', SaidStrands>()
  /** A heading nobody understands stands between a section's and what follows. */
  isSectionDoubtful = false
  private isSectionFirst = false
  private readonly statements = new Set<number>()

  constructor(
    private readonly lines: LookedLines,
    private readonly open: OpenDesigns,
  ) {}

  /** What was said of strands within one design is not said of the next; what stands before the first is said of all. */
  endDesign(before: OpenDesign | null): void {
    for (const [stitch, { line }] of this.strandsFor) if (before && line > before.firstLine) this.strandsFor.delete(stitch)
    this.section = null
    this.sectionStrands = null
  }

  /** A maker named in a line of other words right above a key is that key's. */
  takeMakerAbove(at: number): boolean {
    const { heading, facts } = this.lines.looked[at] as Looked
    const next = this.lines.nextOf(at)
    if (next === null || !(this.lines.isKeyish(next) || this.lines.looked[next]?.header)) return false
    this.isSectionDoubtful = true
    const [first] = heading.makers
    if (!first || heading.makers.length > 1 || facts.length > 0) return false
    this.carried = { maker: first.maker, threadLine: first.threadLine, confidence: Math.min(first.certainty, 0.78), line: at }
    return true
  }

  /** A heading of makers, stitches or strands; false when it is none. */
  takeHeading(at: number, heading: Heading): boolean {
    const { makers, stitches, strands, left, isSaid, isPlain, namesKind } = heading
    if (left.length > 0) return this.takeUnknownMaker(at)
    if (makers.length === 1 && this.isBehindKey(at) && this.takeMakerBehind(at, heading)) return true
    if (makers.length > 0) {
      const [first] = makers as [Heading['makers'][number]]
      this.open.settleTitles(at)
      this.carried = {
        maker: first.maker,
        threadLine: first.threadLine,
        confidence: Math.min(first.certainty, makers.length > 1 ? 0.85 : 0.95),
        line: at,
      }
      const isOwnSection = stitches.length === 1 && !isSaid
      if (isOwnSection || (strands.length === 1 && stitches.length === 0 && !isSaid)) {
        this.section = stitches.length > 0 ? { stitches: [...stitches], line: at } : null
        this.sectionStrands = strands[0] ? { value: strands[0].value, line: at, confidence: 0.9, maker: null } : null
        this.isSectionDoubtful = false
      } else {
        if (strands.length > 0) this.noteStrands(heading, at)
        if (this.section?.stitches[0] === 'bead' || !this.isSectionFirst) {
          this.section = null
          this.sectionStrands = null
        }
      }
      if (!isSaid) this.newPalette(at)
      return true
    }
    if (stitches.length > 0) {
      this.open.settleTitles(at)
      const next = this.lines.nextOf(at)
      const isFollowed =
        next !== null &&
        this.lines.looked[next]?.heading.left.length === 0 &&
        (this.lines.looked[next]?.heading.stitches.length ?? 0) > 0 &&
        (this.lines.looked[next]?.heading.strands.length ?? 0) > 0 &&
        !this.lines.isKeyish(next)
      const before = this.lines.nextOf(at, -1)
      const isFollowing = before !== null && this.statements.has(before)
      if (strands.length > 0 && (strands.length > 1 || stitches.length > 1 || isSaid || isFollowed || isFollowing)) {
        this.noteStrands(heading, at)
        this.statements.add(at)
        return true
      }
      if (this.carried === null) this.isSectionFirst = true
      this.section = { stitches: stitches.slice(0, 3), line: at }
      this.sectionStrands = strands[0] ? { value: strands[0].value, line: at, confidence: 0.9, maker: null } : null
      this.isSectionDoubtful = false
      return true
    }
    if (strands.length > 0) {
      this.noteStrands(heading, at)
      return true
    }
    if (isPlain && (this.lines.looked[at] as Looked).tokens.length > 0) {
      if (namesKind) {
        this.section = null
        this.sectionStrands = null
      }
      return true
    }
    return false
  }

  private noteStrands({ strands, makers }: Heading, at: number, confidence = 0.9): void {
    // Said of one maker's threads, they are said of no other's.
    const maker = makers.length === 1 ? (makers[0]?.maker ?? null) : null
    for (const { value, stitches } of strands)
      for (const stitch of stitches.length > 0 ? stitches : (['all'] as const))
        this.strandsFor.set(stitch, { value, line: at, confidence: stitches.length > 0 ? 0.9 : confidence, maker })
  }

  /** "Brindlequay, if nothing else is said": one maker in a line of small words before the key. */
  takeMakerSaid(at: number): boolean {
    const { heading, tokens, facts } = this.lines.looked[at] as Looked
    const isSmall = heading.left.every(
      (word) =>
        !/\d/.test(word) && (word === word.toLowerCase() || sentenceWords.has(word.toLowerCase()) || word === tokens[0]?.text),
    )
    if (heading.makers.length !== 1 || !isSmall || facts.length > 0 || tokens.length > 20) return false
    if (this.isBehindKey(at) && this.takeMakerBehind(at, heading)) return true
    if (this.lines.lastKeyish < at) return false
    return this.takeSaid(heading, at)
  }

  /**
   * "All shades are Brindlequay" below a key holds for the lines above it, where they name no maker and none was said within their design. A
   * name alone may head what comes, so it counts only where no line of a key follows at all.
   */
  private takeMakerBehind(at: number, { makers, isSaid }: Heading): boolean {
    const [first] = makers
    const { design } = this.open
    if (!first || !design.hasLines || design.hasMakerBehind) return false
    const { text, tokens } = this.lines.looked[at] as Looked
    const isStatement = isSaid || tokens.some(({ key }) => statementWords.has(key)) || /[.!]$/.test(text.trim())
    if (!isStatement && this.lines.lastKeyish > at) return false
    const carried = {
      maker: first.maker,
      threadLine: first.threadLine,
      confidence: Math.min(first.certainty, isStatement ? 0.82 : 0.7),
      line: at,
    }
    let isTaken = false
    for (const row of design.lists.flatMap(({ rows }) => rows)) {
      if (row.carried && row.carried.line >= design.firstLine) continue
      row.carried = carried
      isTaken = true
    }
    design.hasMakerBehind = isTaken
    return isTaken
  }

  /** Whether what stands here comes after a key, with no line of another right below it. */
  private isBehindKey(at: number): boolean {
    if (this.lines.lastKeyish < at) return true
    const next = this.lines.nextOf(at)
    return (
      this.open.design.hasLines &&
      (next === null || ((this.lines.looked[next]?.score ?? 0) < 1 && !this.lines.looked[next]?.header))
    )
  }

  /** What a sentence says of makers and strands: it holds for all that follows. */
  takeSaid(heading: Heading, at: number): boolean {
    const { makers, strands } = heading
    const isMaker = makers.length > 0 && (heading.isSaid || makers.length === 1)
    if (!isMaker && (strands.length === 0 || isOfAPart((this.lines.looked[at] as Looked).text))) return false
    if (isMaker) {
      const [first] = makers as [Heading['makers'][number]]
      this.carried = { maker: first.maker, threadLine: first.threadLine, confidence: Math.min(first.certainty, 0.9), line: at }
    }
    // A sentence about the work as a whole may be about some of it.
    const isPlain =
      heading.left.length === 0 ||
      /\b(?:throughout|everything|everywhere|unless)\b/iu.test((this.lines.looked[at] as Looked).text)
    if (!isOfAPart((this.lines.looked[at] as Looked).text)) this.noteStrands(heading, at, isPlain ? 0.9 : 0.75)
    return true
  }

  /** A group under another maker whose symbols are those of the group before is another palette of the same design. */
  private newPalette(at: number): void {
    const last = this.open.design.lists.at(-1)
    if (!last || last.rows.length < 3) return
    const before = new Set(last.rows.flatMap(({ draft }) => (draft.symbol ? [draft.symbol.value] : [])))
    if (before.size < 3) return
    let [same, all] = [0, 0]
    for (let next = at + 1; next < Math.min(this.lines.looked.length, at + 60); next++) {
      const { line, tokens, isBlank, heading } = this.lines.looked[next] as Looked
      if (isBlank) continue
      if (!this.lines.isKeyish(next) && heading.makers.length > 0 && heading.left.length === 0) break
      const first = line.cells.length > 1 ? (line.cells[0]?.text ?? '').trim() : (tokens[0]?.text ?? '')
      if ([...first].length > 2 || first === '') continue
      all += 1
      if (before.has(first)) same += 1
    }
    if (all >= 3 && same >= all * 0.75) {
      this.open.listBase = this.open.design.lists.length
      this.section = null
    }
  }

  private takeUnknownMaker(at: number): boolean {
    const { tokens, isProse: isSentence } = this.lines.looked[at] as Looked
    const found = unknownMaker(tokens)
    if (!found || (isSentence && !found.isStatement)) return false
    if (found.isStatement && this.open.design.hasLines && this.isBehindKey(at)) {
      this.lines.learnMaker(found.maker)
      const maker = { maker: found.maker, threadLine: found.threadLine, certainty: 0.78 }
      return this.takeMakerBehind(at, { ...(this.lines.looked[at] as Looked).heading, makers: [maker], isSaid: true })
    }
    const next = this.lines.nextOf(at)
    const isBeforeKey =
      next !== null && ((this.lines.looked[next]?.score ?? 0) >= 1.4 || this.lines.looked[next]?.header !== null)
    if (
      !isBeforeKey ||
      !(
        found.isSure ||
        this.isSetAsHeading(at, next) ||
        (this.open.design.hasLines &&
          this.open.design.lists.at(-1)?.rows.at(-1)?.carried?.line !== undefined &&
          /:$/.test((this.lines.looked[at] as Looked).text.trim()))
      )
    )
      return false
    this.open.settleTitles(at)
    this.lines.learnMaker(found.maker)
    this.carried = { maker: found.maker, threadLine: found.threadLine, confidence: found.isSure ? 0.86 : 0.6, line: at }
    if (this.section?.stitches[0] === 'bead') this.section = null
    this.newPalette(at)
    return true
  }

  /** In somewhat larger type than the line of a key below it, one name alone, where the title is known. */
  private isSetAsHeading(at: number, next: number): boolean {
    const looked = this.lines.looked[at] as Looked
    const below = this.lines.looked[next]?.heightPt ?? null
    if (looked.heightPt === null || below === null || this.lines.isLarge(looked) || looked.heightPt < below * 1.1) return false
    const words = looked.text.trim().split(' ')
    const isTitleKnown = this.open.design.facts.title !== null || this.open.pending.length > 0
    return isTitleKnown && looked.line.cells.length === 1 && words.length <= 2 && !/s$/.test(words.at(-1) as string)
  }
}
