import type { Stitch } from '#lib/thread/stitches'
import type { Column } from './columns'
import type { Draft } from './drafts'
import { type Looked, type LookedLines, typeHeight } from './looked-lines'
import type { FoundFact, ReadFacts, ReadField } from './reading'
import { isAboutSheet, isDesignLabel, titleWithin } from './title-facts'
import { type HeadLine, titlesOf } from './titles'
import { nameKey } from './vocabulary'

/** Words of a line that speaks of the threads, and is no title. */
const titleless = new Set(
  'skein skeins hank hanks strand strands thread threads symbol symbols stitches shades legend maker makers brand palette palettes bracket brackets materials'.split(
    ' ',
  ),
)

/** Without the stars and strokes a title may stand between. */
const undecorated = (text: string): string => text.replace(/^[\s*•·~★☆❖♦|–—-]+|[\s*•·~★☆❖♦|–—-]+$/gu, '')

/** A maker, and where it was said. */
export type Carried = { maker: string; threadLine: string | null; confidence: number; line: number }

/** Strands that are not said on the line itself; `maker`: of whose threads alone. */
export type SaidStrands = { value: number; line: number; confidence: number; maker: string | null }

/** A list under construction. */
export type Draughted = {
  draft: Draft
  carried: Carried | null
  section: { stitches: Stitch[]; line: number } | null
  strands: SaidStrands | null
  palette: number
}
export type OpenList = { name: string | null; rows: Draughted[]; order: readonly Column[] | null }
export type OpenDesign = {
  facts: ReadFacts
  weights: Partial<Record<keyof ReadFacts, number>>
  lists: OpenList[]
  hasLines: boolean
  /** Where its head begins. */
  firstLine: number
  hasMakerBehind: boolean
}

const noFacts = (): ReadFacts => ({
  title: null,
  designer: null,
  widthStitches: null,
  heightStitches: null,
  measuredWidthUm: null,
  measuredHeightUm: null,
  count: null,
  over: null,
  weave: null,
  cloth: null,
})

/** The designs of a text while it is read: their facts, the lines that wait to be a title, and their lists. */
export class OpenDesigns {
  readonly designs: OpenDesign[] = []
  readonly unread: number[] = []
  order: readonly Column[] | null = null
  /** Headings that may be a title, and a designer, of what comes. */
  pending: number[] = []
  listBase = 0
  private designersSaid: string[] | null = null

  /** @param onNew  Told when a design begins, with the one before it. */
  constructor(
    private readonly lines: LookedLines,
    private readonly onNew: (before: OpenDesign | null) => void,
  ) {}

  get design(): OpenDesign {
    return this.designs.at(-1) as OpenDesign
  }

  newDesign(firstLine: number): void {
    const before = this.designs.at(-1)
    this.designs.push({ facts: noFacts(), weights: {}, lists: [], hasLines: false, firstLine, hasMakerBehind: false })
    this.order = null
    this.listBase = 0
    this.onNew(before ?? null)
  }

  list(palette: number): OpenList {
    const { lists } = this.design
    while (lists.length <= this.listBase + palette) lists.push({ name: null, rows: [], order: this.order })
    const list = lists[this.listBase + palette] as OpenList
    if (this.order) list.order = this.order
    return list
  }

  takeFacts(at: number, facts: readonly FoundFact[]): void {
    const { design } = this
    if (design.hasLines) {
      const isHead = facts.some(
        ({ fact }) => fact === 'title' || fact === 'widthStitches' || fact === 'designer' || fact === 'measuredWidthUm',
      )
      const isHeld = Object.values(design.facts).some((fact) => fact !== null)
      const isAgain = facts.some(
        ({ fact }) => design.facts[fact] !== null && fact !== 'count' && fact !== 'cloth' && fact !== 'over' && fact !== 'weave',
      )
      const hasKeyAfter = this.lines.lastKeyish > at
      if (
        isHead &&
        (hasKeyAfter
          ? isHeld || this.pending.length > 0 || facts.some(({ fact }) => fact === 'title')
          : isAgain && (this.pending.length > 0 || facts.some(({ fact }) => fact === 'title')))
      )
        this.startDesign(at)
      else this.takeTitlesUp()
    } else this.takeTitlesUp()
    for (const fact of facts) this.giveFact(this.isDesignerBelow(fact, at) ? { ...fact, fact: 'designer' } : fact, at)
  }

  /** "Design: …" right below a title names who made it. */
  private isDesignerBelow(found: FoundFact, at: number): found is FoundFact & { fact: 'title' } {
    const { title, designer } = this.design.facts
    return (
      found.fact === 'title' &&
      title !== null &&
      designer === null &&
      title.line === this.lines.nextOf(at, -1) &&
      isDesignLabel((this.lines.looked[at] as Looked).text)
    )
  }

  private giveFact<K extends keyof ReadFacts>({ fact, value, confidence, weight }: FoundFact & { fact: K }, at: number): void {
    const { facts, weights } = this.design
    if (!this.design.hasLines && Object.values(facts).every((one) => one === null) && this.designs.length === 1)
      this.design.firstLine = at
    const held = facts[fact]
    const certainty = (this.lines.looked[at]?.line.cells ?? []).reduce((least, cell) => Math.min(least, cell.certainty), 1)
    if (held) {
      const isSame = JSON.stringify(held.value) === JSON.stringify(value)
      if (isSame) return
      // Two sayings of one thing: the plainer stands, and neither is sure.
      const heldWeight = weights[fact] ?? 0
      if (weight <= heldWeight) {
        if (weight > heldWeight - 0.15) held.confidence = Math.min(held.confidence, 0.6)
        return
      }
    }
    ;(facts as Record<string, ReadField<unknown>>)[fact] = {
      value,
      confidence: Math.min(certainty, held && weight - (weights[fact] ?? 0) < 0.15 ? 0.6 : confidence),
      line: at,
    }
    weights[fact] = weight
  }

  private startDesign(at: number): void {
    const titles = this.pending
    this.newDesign(Math.min(at, ...titles))
    this.pending = titles
    this.takeTitlesUp()
  }

  /** A key begins: what waits to be a title is one, if it opens a design. */
  settleTitles(at: number): void {
    const [title] = this.pending
    if (title === undefined) return
    if (!this.design.hasLines) this.takeTitlesUp()
    else if (at - title <= 8 && this.opensDesign(title)) this.startDesign(at)
    else {
      this.unread.push(...this.pending)
      this.pending = []
    }
  }

  /** A heading in the middle opens a design only where what follows it is a head of its own. */
  private opensDesign(title: number): boolean {
    for (let next = title + 1; next < Math.min(this.lines.looked.length, title + 8); next++) {
      const { facts, header, isBlank } = this.lines.looked[next] as Looked
      if (isBlank) continue
      if (header || facts.some(({ fact }) => fact !== 'weave')) return true
      if (this.lines.isKeyish(next)) return false
    }
    return false
  }

  takeTitlesUp(): void {
    const pending = this.pending
    this.pending = []
    if (pending.length === 0) return
    const { title, designer } = this.design.facts
    const last = pending.at(-1) as number
    const found = titlesOf(
      pending.map((at) => this.headLine(at)),
      { title: title !== null, designer: designer !== null || this.isDesignerNear(last), named: this.namedDesigners },
    )
    for (const fact of ['title', 'designer'] as const) {
      const said = found[fact]
      if (said)
        this.giveFact(
          { fact, value: said.value, confidence: Math.min(said.confidence, said.certainty), weight: said.confidence },
          said.at,
        )
    }
    this.unread.push(...found.unread)
  }

  /** Whom any line says to be the designer, folded. */
  private get namedDesigners(): string[] {
    this.designersSaid ??= this.lines.looked.flatMap(({ facts }) =>
      facts.flatMap((found) => (found.fact === 'designer' ? [nameKey(found.value)] : [])),
    )
    return this.designersSaid
  }

  private headLine(at: number): HeadLine {
    const { line } = this.lines.looked[at] as Looked
    const cells = line.cells.filter(({ text }) => text.trim() !== '')
    // Two beside each other are two things said; more are the words of one.
    const isTwo = cells.length === 2
    const whole = undecorated(cells.map(({ text }) => text.trim()).join(' '))
    const heights = cells.map((cell) => typeHeight(cell))
    const most = heights.reduce<number | null>((held, one) => (one === null ? held : Math.max(held ?? 0, one)), null)
    return {
      at,
      parts: isTwo
        ? cells.map((cell, index) => ({ text: undecorated(cell.text), heightPt: heights[index] ?? null }))
        : [{ text: whole, heightPt: most }],
      certainty: line.cells.reduce((least, cell) => Math.min(least, cell.certainty), 1),
      isAboveFacts: this.isHead(at),
    }
  }

  /** Whether one of the lines right below says who the designer is. */
  private isDesignerNear(at: number): boolean {
    for (let next = at + 1; next < Math.min(this.lines.looked.length, at + 7); next++)
      if (this.lines.looked[next]?.facts.some(({ fact, weight }) => fact === 'designer' && weight >= 0.5)) return true
    return false
  }

  /** Below a title by itself there are facts, as a head has them: else it may be anything. */
  private isHead(at: number): boolean {
    for (let next = at + 1; next < Math.min(this.lines.looked.length, at + 4); next++)
      if ((this.lines.looked[next]?.facts.length ?? 0) > 0) return true
    return false
  }

  /** A short line that could be a title waits for what comes after it. */
  takeTitle(at: number): boolean {
    const { tokens, text, line, heading } = this.lines.looked[at] as Looked
    const words = tokens.filter(({ kind }) => kind === 'word')
    const trimmed = undecorated(text)
    if (
      words.length === 0 ||
      words.length > 10 ||
      trimmed.length > 70 ||
      /[.:!?;,]$/.test(trimmed) ||
      line.cells.filter((cell) => cell.text.trim() !== '').length > 3
    )
      return false
    if (!/^["“‘'(]?[\p{Lu}\p{N}]/u.test(trimmed)) return false
    if (isAboutSheet(trimmed) || /^\d+ \p{Ll}/u.test(trimmed)) return false
    if (heading.makers.length > 0 || heading.strands.length > 0) return false
    const plain = titleWithin(trimmed)
    if (words.some(({ key, text: word }) => titleless.has(key) && plain.includes(word))) return false
    const { title, designer } = this.design.facts
    if (!this.design.hasLines && title !== null && designer !== null) return false
    this.pending.push(at)
    const most = this.lines.looked[at]?.heightPt === null ? 2 : 6
    if (this.pending.length > most) this.unread.push(this.pending.shift() as number)
    return true
  }
}
