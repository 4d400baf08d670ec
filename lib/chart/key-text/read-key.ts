import type { SourceLine } from '../page-text/page-text'
import { type Column, labelledCells } from './columns'
import type { Draft } from './drafts'
import { ListFinisher } from './finish-lists'
import { numbersSaid, signSaid } from './headings'
import type { Lesson } from './lesson'
import { LineContexts } from './line-contexts'
import { type Looked, LookedLines } from './looked-lines'
import { withMakersMended } from './mend-makers'
import { OpenDesigns, type SaidStrands } from './open-designs'
import { FreeReader } from './read-line'
import { RowReader } from './read-row'
import type { KeyReading, ReadDesign } from './reading'
import { SaidAbove } from './said-above'
import { blocksSideBySide, partsOf } from './side-by-side'
import { TableHeads } from './table-heads'
import { titleAndDesigner } from './title-facts'
import { lineTokens } from './tokens'
import { nameKey, type Vocabulary } from './vocabulary'

/**
 * Read the text of a key: designs with their facts, and lists of key lines, each thread held against the collection.
 *
 * First every line is looked at by itself; then what the lines have in common is learnt (shapes of codes, makers nobody knew); then they are
 * read in order, headings carried down. Whatever is not understood stays in `unread` or in a line's `rest`. Linear in the text.
 *
 * @param lessons  what a person said of it; see teach
 */
export function readKey(lines: readonly SourceLine[], known: Vocabulary, lessons: readonly Lesson[] = []): KeyReading {
  return new KeyReader(withMakersMended(lines, known), known, lessons).read()
}

class KeyReader {
  private readonly lines: LookedLines
  private readonly open: OpenDesigns
  private readonly above: SaidAbove
  private readonly heads: TableHeads
  private readonly contexts: LineContexts
  /** How many lines of the key stand side by side in each line. */
  private readonly sides: number[]
  private header: { columns: (Column | null)[]; palettes: number[][]; line: number } | null = null
  /** What a sign beside a number makes it, where the text says so. */
  readonly signs = new Map<string, 'strands' | 'put-ups'>()
  numbers: ReturnType<typeof numbersSaid> = null
  private familyLine: number | null = null
  /** Lines that went into the draft of another line. */
  readonly joinedTo = new Map<Draft, number[]>()

  constructor(
    lines: readonly SourceLine[],
    known: Vocabulary,
    private readonly lessons: readonly Lesson[],
  ) {
    this.lines = new LookedLines(lines, known, lessons)
    this.open = new OpenDesigns(this.lines, (before) => {
      this.header = null
      this.above?.endDesign(before)
    })
    this.above = new SaidAbove(this.lines, this.open)
    this.heads = new TableHeads(this.lines, lessons)
    this.contexts = new LineContexts(this.lines, this.above)
    this.sides = blocksSideBySide(this.lines.looked.map(({ line }) => line))
    this.open.newDesign(0)
    for (let at = this.lines.looked.length; at < lines.length; at++) this.open.unread.push(at)
  }

  read(): KeyReading {
    this.lines.looked.forEach((_, at) => {
      this.place(at)
    })
    return { designs: this.finished(), unread: this.open.unread.sort((a, b) => a - b) }
  }

  /** Decide what a line is, and take in what it says. */
  private place(at: number): void {
    const looked = this.lines.looked[at] as Looked
    const { isBlank, isTooLong, header, facts, heading, text, tokens, line } = looked
    if (isBlank) return
    if (isTooLong) {
      this.open.unread.push(at)
      return
    }
    if (header && (header.length > 1 || header.length === line.cells.length || line.cells.length === 1)) {
      this.takeHeader(header, at)
      return
    }
    if (this.asRow(at) || this.asSides(at)) return
    const sign = signSaid(text)
    if (sign) {
      this.signs.set(sign.sign.toLowerCase(), sign.mean)
      if (!/^[x×]$/iu.test(sign.sign)) this.numbers = { which: 'all', mean: sign.mean }
      return
    }
    const numbers = numbersSaid(text)
    if (numbers && (looked.isProse || heading.left.length === 0 || !this.lines.isKeyish(at))) {
      this.numbers = numbers
      if (heading.makers.length > 0) this.above.takeSaid({ ...heading, strands: [] }, at)
      return
    }
    if (heading.left.length === 0 && facts.length === 0 && !looked.isProse && this.above.takeHeading(at, heading)) return
    if (this.lines.isKeyish(at)) {
      this.readFree(at)
      return
    }
    if (facts.length > 0 && facts.some(({ weight }) => weight >= 0.5)) {
      this.open.takeFacts(at, facts)
      const isWith =
        heading.makers.length === 1 && /\b(?:with|using|threads?|floss|silks?|cottons?|wools?|colours?)\b/iu.test(text)
      if (heading.strands.length > 0 || (heading.makers.length > 0 && (looked.isProse || isWith)))
        this.above.takeSaid(heading, at)
      return
    }
    if (this.isWeakKey(at)) {
      this.readFree(at)
      return
    }
    if (this.above.takeHeading(at, heading) || this.above.takeMakerSaid(at) || this.takeFamily(at)) return
    if ((!looked.isProse || this.lines.isLarge(looked) || titleAndDesigner(text.trim())) && this.open.takeTitle(at)) return
    if (
      looked.isProse &&
      (heading.strands.length > 0 || (heading.makers.length > 0 && heading.isSaid)) &&
      this.above.takeSaid(heading, at)
    )
      return
    if (this.above.takeMakerAbove(at)) return
    if (tokens.length > 0) this.open.unread.push(at)
  }

  private takeHeader(header: (Column | null)[], at: number): void {
    const { line } = this.lines.looked[at] as Looked
    const isAgain = this.header !== null && header.every((column, index) => column?.role === this.header?.columns[index]?.role)
    this.open.settleTitles(at)
    if (line.cells.length === 1) {
      this.header = null
      this.open.order = header.filter((column) => column !== null)
      const named = this.open.order.find(({ maker }) => maker)
      if (named?.maker)
        this.above.carried = { maker: named.maker, threadLine: named.threadLine ?? null, confidence: 0.93, line: at }
      return
    }
    const told = this.heads.headsByContent(header, at)
    const columns = told.map(
      (column, index) => column ?? this.heads.unknownColumn(index, line.cells[index]?.text ?? '', told, at),
    )
    for (const column of columns) if (column?.maker) this.lines.learnMaker(column.maker)
    const taught = this.heads.taughtColumns(columns, at)
    const codes = taught.flatMap((column, index) => (column?.role === 'code' && column.maker ? [index] : []))
    const palettes = this.heads.palettesOf(taught, codes, at)
    this.header = { columns: taught, palettes, line: at }
    this.open.order = null
    if (!isAgain && this.open.design.lists.some(({ rows }) => rows.length > 0) && palettes.length > 1)
      this.open.listBase = this.open.design.lists.length
  }

  /** A row of the table whose head is in force; true when it was one. */
  private asRow(at: number): boolean {
    const { line, text, tokens, heading } = this.lines.looked[at] as Looked
    const labelled = text.includes(':') ? labelledCells(line, this.lines.known) : null
    if (labelled) {
      const reader = new RowReader({ page: line.page, cells: labelled.cells }, at, labelled.columns, this.contexts.contextAt(at))
      const [draft] = reader.read([[]])
      if (draft?.threads.some(({ code, name }) => code || name) && this.isPlausible(draft)) {
        this.keep(draft, 0, at)
        return true
      }
    }
    if (!this.header) return false
    const filled = line.cells.filter((cell) => cell.text.trim() !== '').length
    const isHeadingLine = filled === 1 && (heading.left.length === 0 || heading.makers.length > 0)
    if (filled < 2 || isHeadingLine || line.cells.length > this.header.columns.length + 2) return false
    const isFar = tokens.length > 40 || (this.lines.looked[at]?.isProse === true && (this.lines.looked[at]?.score ?? 0) < 1)
    if (isFar) return false
    const { columns, palettes } = this.header
    const blocks = this.headBlocks()
    if (blocks > 1 && line.cells.length > columns.length / blocks) {
      const own = columns.slice(0, columns.length / blocks)
      const parts = Array.from({ length: blocks }, (_, block) => line.cells.slice(block * own.length, (block + 1) * own.length))
      for (const cells of parts) {
        if (cells.every((cell) => cell.text.trim() === '')) continue
        const [draft] = new RowReader({ ...line, cells }, at, own, this.contexts.contextAt(at)).read([[]])
        if (draft) this.keep(draft, 0, at)
      }
      return true
    }
    const drafts = new RowReader(line, at, columns, this.contexts.contextAt(at)).read(palettes)
    if (drafts.every((draft) => draft === null)) return false
    drafts.forEach((draft, palette) => {
      if (draft) this.keep(draft, palette, at)
    })
    return true
  }

  /** Lines side by side: each half is a line, under its half of the head if there is one. */
  private asSides(at: number): boolean {
    const blocks = this.sides[at] ?? 1
    if (blocks < 2 || this.header) return false
    const drafts = partsOf((this.lines.looked[at] as Looked).line, blocks).flatMap((part) =>
      new FreeReader(part, at, lineTokens(part), this.contexts.contextAt(at), true).read().slice(0, 1),
    )
    const named = drafts.filter(({ threads }) => threads.some(({ code, name }) => code || name))
    if (named.length === 0) return false
    for (const draft of named) this.keep(draft, 0, at)
    return true
  }

  /** Row by row under a head that stands twice, one beside the other. */
  private headBlocks(): number {
    const columns = this.header?.columns ?? []
    for (const blocks of [2, 3, 4]) {
      const own = columns.length / blocks
      if (!Number.isInteger(own) || own < 2) continue
      const isAgain = columns.every(
        (column, index) => column !== null && !column.maker && column.role === columns[index % own]?.role,
      )
      if (isAgain) return blocks
    }
    return 1
  }

  private isPlausible = (draft: Draft): boolean =>
    draft.threads.every(({ name, code }) => (name?.value.length ?? 0) <= 60 && (code?.value.length ?? 0) <= 40)

  /** Named threads have no code: a line of a key by its symbol, its amount, or the lines around it. */
  private isWeakKey(at: number): boolean {
    const { score, isProse: isSentence, tokens, heading, facts } = this.lines.looked[at] as Looked
    if (isSentence || facts.length > 0 || tokens.length > 24) return false
    const isUnderMaker = this.above.carried !== null
    const before = this.lines.nextOf(at, -1)
    const last = this.lastSource()
    const isNext = last !== null && before === last
    const isUnderHeading =
      before !== null &&
      (this.above.carried?.line === before || this.above.section?.line === before || this.familyLine === before)
    if (heading.isPlain || this.lines.isLarge(this.lines.looked[at] as Looked) || this.lacksCode(at)) return false
    const words = tokens.filter(({ kind }) => kind === 'word')
    if (words.length === 0 && score < 1.5) return false
    if (isUnderMaker && (isNext || isUnderHeading) && words.length <= 7 && score >= 0.3) return true
    const isNamedOnly =
      words.length <= 5 &&
      score >= 0 &&
      before === at - 1 &&
      /^["“]?\p{Lu}[^.:!?]*$/u.test((this.lines.looked[at] as Looked).text.trim())
    if (isUnderMaker && (isNext || isUnderHeading) && isNamedOnly) return true
    return (isNext || isUnderHeading) && score >= 1.4
  }

  /** Words alone among lines that have their codes head some of them: "Greens". */
  private lacksCode(at: number): boolean {
    const { line, tokens, heading, best } = this.lines.looked[at] as Looked
    const filled = line.cells.filter(({ text }) => text.trim() !== '')
    const isWords = filled.length === 1 && tokens.every(({ kind }) => kind === 'word' || kind === 'mark')
    if (!isWords || best >= 0.8 || heading.strands.length > 0 || this.lines.known.byNameKey.has(nameKey(filled[0]?.text ?? '')))
      return false
    const next = this.lines.nextOf(at)
    const last = this.lastDraft()
    const isAmong = last === null || last.threads.some(({ code }) => code !== null)
    return isAmong && next !== null && (this.lines.looked[next]?.score ?? 0) >= 1.4 && (this.lines.looked[next]?.best ?? 0) >= 0.8
  }

  /** "Greens" right below the maker, or between the lines of a key. */
  private takeFamily(at: number): boolean {
    const before = this.lines.nextOf(at, -1)
    const isWithin = before !== null && (this.above.carried?.line === before || this.lastSource() === before)
    if (!isWithin || this.lines.isLarge(this.lines.looked[at] as Looked) || !this.lacksCode(at)) return false
    this.familyLine = at
    this.above.isSectionDoubtful = true
    return true
  }

  private lastDraft(): Draft | null {
    return this.open.design.lists.at(-1)?.rows.at(-1)?.draft ?? null
  }

  private lastSource(): number | null {
    return this.open.design.lists.at(-1)?.rows.at(-1)?.draft.source ?? null
  }

  private readFree(at: number): void {
    const { line, tokens } = this.lines.looked[at] as Looked
    this.open.settleTitles(at)
    const drafts = new FreeReader(line, at, tokens, this.contexts.contextAt(at), true).read()
    const useful = drafts.filter(({ threads }) => threads.some(({ code, name }) => code || name))
    if (useful.length === 0) {
      this.open.unread.push(at)
      return
    }
    for (const draft of useful) {
      if (draft.isContinued && this.joinBefore(draft)) continue
      if (useful.length === 1 && this.goesOn(draft, at)) continue
      this.keep(draft, 0, at)
    }
  }

  /** A line that begins with a sign of joining is another thread of the line before. */
  private joinBefore(draft: Draft): boolean {
    const before = this.open.list(0).rows.at(-1)
    if (!before || draft.source - before.draft.source > 2) return false
    before.draft.threads.push(...draft.threads)
    before.draft.amounts.push(...draft.amounts)
    before.draft.lone.push(...draft.lone.map((lone) => ({ ...lone, thread: before.draft.threads.length - 1 })))
    before.draft.rest.push(...draft.rest)
    this.join(draft.source, before.draft)
    return true
  }

  private join(source: number, to: Draft): void {
    const held = this.joinedTo.get(to)
    if (held) held.push(source)
    else this.joinedTo.set(to, [source])
  }

  /** One item over two lines: its number on the one, its name on the other. */
  private goesOn(draft: Draft, at: number): boolean {
    const before = this.open.list(0).rows.at(-1)?.draft
    const [one, other] = [before?.threads[0], draft.threads[0]]
    if (!before || !one || !other || before.source !== at - 1 || before.threads.length > 1 || draft.threads.length > 1)
      return false
    if (this.joinedTo.has(before) || draft.symbol || draft.worked || other.maker) return false
    const isNamedAfter = one.code !== null && one.name === null && other.code === null && other.name !== null
    const isNumberedAfter =
      one.name !== null && one.code === null && before.symbol !== null && other.code !== null && other.name === null
    if (!isNamedAfter && !isNumberedAfter) return false
    // Lists of numbers and lists of names stand by themselves where their lines say how much.
    if (before.amounts.length > 0 || before.lone.length > 0 || one.strands) return false
    one.code ??= other.code
    one.name ??= other.name
    one.strands ??= other.strands
    before.amounts.push(...draft.amounts)
    before.lone.push(...draft.lone)
    before.rest.push(...draft.rest)
    this.join(draft.source, before)
    return true
  }

  private keep(draft: Draft, palette: number, at: number): void {
    this.open.settleTitles(at)
    this.open.design.hasLines = true
    const stitch = draft.worked?.value[0] ?? this.above.section?.stitches[0] ?? 'full'
    const isOfMaker = (one: SaidStrands | undefined) =>
      one && (one.maker === null || this.above.carried === null || one.maker === this.above.carried.maker) ? one : null
    const said = isOfMaker(this.above.strandsFor.get(stitch)) ?? isOfMaker(this.above.strandsFor.get('all'))
    const ofSection = draft.worked === null ? this.above.sectionStrands : null
    const strands = ofSection && this.above.isSectionDoubtful ? { ...ofSection, confidence: 0.7 } : (ofSection ?? said)
    this.open
      .list(palette)
      .rows.push({ draft, carried: this.above.carried, section: draft.worked ? null : this.above.section, strands, palette })
  }

  private finished(): ReadDesign[] {
    if (this.open.design.hasLines && Object.values(this.open.design.facts).some((fact) => fact !== null))
      this.open.unread.push(...this.open.pending)
    else this.open.takeTitlesUp()
    const finisher = new ListFinisher(this.lines, this.lessons, {
      signs: this.signs,
      numbers: this.numbers,
      joinedTo: this.joinedTo,
    })
    return this.open.designs.map(({ facts, lists }) => ({
      facts,
      lists: lists.filter(({ rows }) => rows.length > 0).map((list) => finisher.finishedList(list)),
    }))
  }
}
