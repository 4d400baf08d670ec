import type { Stitch } from '#lib/thread/stitches'
import { lineText, type SourceLine } from '../page-text/page-text'
import { type Column, headerOf, labelledCells } from './columns'
import { type FoundFact, factsOf, isAboutSheet, isDesignLabel, titleAndDesigner, titleWithin } from './facts'
import { type Heading, headingOf, isProse, numbersSaid, signSaid, unknownMaker } from './headings'
import type { Lesson } from './lesson'
import { likelyLine } from './likely-line'
import { type NumberHints, settleNumbers, timesAreStrands } from './lone-numbers'
import { matchThread } from './match'
import { type Draft, FreeReader, type LineContext, shapeOf } from './read-line'
import { RowReader } from './read-row'
import type {
  KeyReading,
  NamedThread,
  ReadAmount,
  ReadDesign,
  ReadFacts,
  ReadField,
  ReadKeyLine,
  ReadList,
  ThreadMatch,
} from './reading'
import { blocksSideBySide, partsOf } from './side-by-side'
import { lineTokens, longestLineText, mostCells, phraseAt, type Token } from './tokens'
import { nameKey, nameWords, type Phrase, type Vocabulary } from './vocabulary'
import { namedCodes, sentenceWords, stitchPhrases } from './words'

/** A text of more lines than this is no key; what stands beyond is left unread. */
const mostLines = 20_000

/** Words of a line that speaks of the threads, and is no title. */
const titleless = new Set(
  'skein skeins hank hanks strand strands thread threads symbol symbols stitches shades legend maker makers brand palette palettes bracket brackets materials'.split(
    ' ',
  ),
)

/** What was found out about one line by itself. */
type Looked = {
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
}

/** A maker, and where it was said. */
type Carried = { maker: string; threadLine: string | null; confidence: number; line: number }

/** A list under construction. */
type Draughted = {
  draft: Draft
  carried: Carried | null
  section: { stitches: Stitch[]; line: number } | null
  strands: { value: number; line: number } | null
  palette: number
}
type OpenList = { name: string | null; rows: Draughted[]; order: readonly Column[] | null }
type OpenDesign = { facts: ReadFacts; weights: Partial<Record<keyof ReadFacts, number>>; lists: OpenList[]; hasLines: boolean }

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

/**
 * Read the text of a key: designs with their facts, and lists of key lines, each thread held against the collection.
 *
 * First every line is looked at by itself; then what the lines have in common is learnt (shapes of codes, makers nobody knew); then they are
 * read in order, headings carried down. Whatever is not understood stays in `unread` or in a line's `rest`. Linear in the text.
 *
 * @param lessons  what a person said of it; see teach
 */
export function readKey(lines: readonly SourceLine[], known: Vocabulary, lessons: readonly Lesson[] = []): KeyReading {
  return new KeyReader(lines, known, lessons).read()
}

class KeyReader {
  private readonly looked: Looked[]
  /** How many lines of the key stand side by side in each line. */
  private readonly sides: number[]
  private makers: Map<string, Phrase<string>[]>
  private shapes = new Set<string>()
  private readonly blocks: { hasSymbols: boolean | null; bullets: ReadonlySet<string>; plusJoins: boolean }[] = []
  private readonly designs: OpenDesign[] = []
  private readonly unread: number[] = []

  // What headings say, until others do.
  private carried: Carried | null = null
  private section: { stitches: Stitch[]; line: number } | null = null
  private sectionStrands: { value: number; line: number } | null = null
  private readonly strandsFor = new Map<Stitch | 'all', { value: number; line: number }>()
  private isSectionFirst = false
  private header: { columns: (Column | null)[]; palettes: number[][]; line: number } | null = null
  private order: readonly Column[] | null = null
  /** What a sign beside a number makes it, where the text says so. */
  private readonly signs = new Map<string, 'strands' | 'put-ups'>()
  private numbers: ReturnType<typeof numbersSaid> = null
  /** Headings that may be a title, and a designer, of what comes. */
  private pending: number[] = []
  private listBase = 0
  private lastKeyish = -1

  constructor(
    lines: readonly SourceLine[],
    private readonly known: Vocabulary,
    private readonly lessons: readonly Lesson[],
  ) {
    this.makers = new Map([...known.makerPhrases].map(([word, phrases]) => [word, [...phrases]]))
    for (const lesson of lessons) if (lesson.kind === 'maker') this.learnMaker(lesson.maker)
    for (const { name } of known.makers.values()) this.learnMaker(name, `${name}s`)
    this.looked = lines.slice(0, mostLines).map((line) => this.look(line))
    this.sides = blocksSideBySide(this.looked.map(({ line }) => line))
    for (let at = mostLines; at < lines.length; at++) this.unread.push(at)
  }

  /** @param written  as it may stand in the text: Brindlequay's */
  private learnMaker(maker: string, written = maker): void {
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
      facts: isTooLong || isBlank ? [] : factsOf(line.cells.map((cell) => cell.text).join(' ')),
      heading,
      isProse: isProse(tokens),
      score: 0,
    }
  }

  read(): KeyReading {
    this.newDesign()
    this.learnShapes()
    for (const looked of this.looked) looked.score = this.score(looked)
    this.lastKeyish = this.looked.findLastIndex((_, at) => this.isKeyish(at))
    this.learnMakers()
    this.learnBlocks()
    this.looked.forEach((_, at) => {
      this.place(at)
    })
    return { designs: this.finished(), unread: this.unread.sort((a, b) => a - b) }
  }

  /** Shapes that codes have here: of those that are known, or have noughts before them. */
  private learnShapes(): void {
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
  private score({ tokens, line, facts, heading, isProse: isSentence, isBlank, isTooLong, header, text }: Looked): number {
    if (isBlank || isTooLong || header) return 0
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
    if (/\b(published|printing|printed|edition|chart no|leaflet no|page|design no)\b/iu.test(text)) score -= 1.5
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

  private isKeyish = (at: number): boolean => (this.looked[at]?.score ?? 0) >= 2

  private baseContext(): LineContext {
    return {
      known: this.known,
      makers: this.makers,
      maker: null,
      threadLine: null,
      shapes: this.shapes,
      hasSymbols: null,
      bullets: new Set(),
      plusJoins: true,
      hasCodes: true,
    }
  }

  /** Words beside the codes that come again in line after line are a maker's name. */
  private learnMakers(): void {
    const counts = new Map<string, { text: string; count: number }>()
    let lines = 0
    for (const [at, { line, tokens, heading }] of this.looked.entries()) {
      if (!this.isKeyish(at) || heading.makers.length > 0) continue
      lines += 1
      if (lines > 3_000) break
      const [draft] = new FreeReader(line, at, tokens, this.baseContext(), true).read()
      if (!draft) continue
      const ofLine = new Set<string>()
      for (const text of [draft.beside.before, draft.beside.behind, draft.threads[0]?.name?.value ?? null]) {
        if (
          text === null ||
          this.known.byNameKey.has(nameKey(text)) ||
          !/^\p{Lu}/u.test(text) ||
          namedCodes.has(text.toLowerCase())
        )
          continue
        const words = nameWords(text)
        if (
          words.length > 3 ||
          words.some(
            (word) => sentenceWords.has(word) || (stitchPhrases.get(word) ?? []).some((phrase) => phrase.words.length === 1),
          )
        )
          continue
        const key = words.join(' ')
        if (ofLine.has(key)) continue
        ofLine.add(key)
        const held = counts.get(key) ?? { text, count: 0 }
        held.count += 1
        counts.set(key, held)
      }
    }
    for (const { text, count } of counts.values()) if (count >= 4 && count >= lines * 0.25) this.learnMaker(text)
  }

  /** What begins the lines of one run: symbols, each its own, or the same bullet before all. */
  private learnBlocks(): void {
    let block: { firsts: string[]; lines: number } = { firsts: [], lines: 0 }
    let start = 0
    const close = (end: number) => {
      const counts = new Map<string, number>()
      for (const text of block.firsts) counts.set(text, (counts.get(text) ?? 0) + 1)
      const repeated = new Set(
        [...counts].filter(([, count]) => block.lines >= 3 && count >= block.lines * 0.5).map(([text]) => text),
      )
      const varied = block.firsts.filter((text) => !repeated.has(text)).length
      // Small numbers down the side with nothing else among them are codes.
      const areNumbers =
        block.firsts.length > 0 && block.firsts.filter((text) => /^\d+$/.test(text)).length > block.firsts.length * 0.6
      const hasSymbols = block.lines < 2 ? null : varied >= block.lines * 0.5 && !areNumbers
      const pluses = block.firsts.filter((text) => text === '+' || text === '&').length
      const found = { hasSymbols, bullets: repeated, plusJoins: hasSymbols !== true || pluses > 2 }
      for (let at = start; at < end; at++) this.blocks[at] = found
      block = { firsts: [], lines: 0 }
      start = end
    }
    for (const [at, { tokens, isBlank, heading, line }] of this.looked.entries()) {
      if (!this.isKeyish(at)) {
        if (!isBlank && (heading.makers.length > 0 || heading.stitches.length > 0 || this.looked[at]?.facts.length)) close(at)
        continue
      }
      block.lines += 1
      const [first, second] = tokens
      if (!first || !second) continue
      const cell = (line.cells[0]?.text ?? '').trim()
      const isSignCell = line.cells.length > 1 && cell !== '' && [...cell].length <= 2
      const isShort = [...first.text].length <= 2 && (first.kind === 'mark' || [...first.text].length === 1)
      if (isSignCell) block.firsts.push(cell)
      else if (isShort && second.start > first.end) block.firsts.push(first.text)
    }
    close(this.looked.length)
  }

  private get design(): OpenDesign {
    return this.designs.at(-1) as OpenDesign
  }

  private newDesign(): void {
    this.designs.push({ facts: noFacts(), weights: {}, lists: [], hasLines: false })
    this.header = null
    this.order = null
    this.section = null
    this.sectionStrands = null
    this.listBase = 0
  }

  private list(palette: number): OpenList {
    const { lists } = this.design
    while (lists.length <= this.listBase + palette) lists.push({ name: null, rows: [], order: this.order })
    const list = lists[this.listBase + palette] as OpenList
    if (this.order) list.order = this.order
    return list
  }

  /** Decide what a line is, and take in what it says. */
  private place(at: number): void {
    const looked = this.looked[at] as Looked
    const { isBlank, isTooLong, header, facts, heading, text, tokens, line } = looked
    if (isBlank) return
    if (isTooLong) {
      this.unread.push(at)
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
    if (numbers && (looked.isProse || heading.left.length === 0 || !this.isKeyish(at))) {
      this.numbers = numbers
      if (heading.makers.length > 0) this.takeSaid({ ...heading, strands: [] }, at)
      return
    }
    if (heading.left.length === 0 && facts.length === 0 && !looked.isProse && this.takeHeading(at, heading)) return
    if (this.isKeyish(at)) {
      this.readFree(at)
      return
    }
    if (facts.length > 0 && facts.some(({ weight }) => weight >= 0.5)) {
      this.takeFacts(at, facts)
      if (heading.strands.length > 0 || (heading.makers.length > 0 && looked.isProse)) this.takeSaid(heading, at)
      return
    }
    if (this.isWeakKey(at)) {
      this.readFree(at)
      return
    }
    if (this.takeHeading(at, heading) || this.takeMakerSaid(at)) return
    if ((!looked.isProse || titleAndDesigner(text.trim())) && this.takeTitle(at)) return
    if (
      looked.isProse &&
      (heading.strands.length > 0 || (heading.makers.length > 0 && heading.isSaid)) &&
      this.takeSaid(heading, at)
    )
      return
    if (tokens.length > 0) this.unread.push(at)
  }

  private nextOf(at: number, step: 1 | -1 = 1): number | null {
    for (let next = at + step; next >= 0 && next < this.looked.length && Math.abs(next - at) < 12; next += step)
      if (!this.looked[next]?.isBlank) return next
    return null
  }

  private takeHeader(header: (Column | null)[], at: number): void {
    const { line } = this.looked[at] as Looked
    const isAgain = this.header !== null && header.every((column, index) => column?.role === this.header?.columns[index]?.role)
    this.settleTitles(at)
    if (line.cells.length === 1) {
      this.header = null
      this.order = header.filter((column) => column !== null)
      const named = this.order.find(({ maker }) => maker)
      if (named?.maker) this.carried = { maker: named.maker, threadLine: named.threadLine ?? null, confidence: 0.93, line: at }
      return
    }
    const columns = header.map((column, index) => column ?? this.unknownColumn(index, line.cells[index]?.text ?? '', header, at))
    for (const column of columns) if (column?.maker) this.learnMaker(column.maker)
    const taught = this.taughtColumns(columns, at)
    const codes = taught.flatMap((column, index) => (column?.role === 'code' && column.maker ? [index] : []))
    const palettes = this.palettesOf(taught, codes, at)
    this.header = { columns: taught, palettes, line: at }
    this.order = null
    if (!isAgain && this.design.lists.some(({ rows }) => rows.length > 0) && palettes.length > 1)
      this.listBase = this.design.lists.length
  }

  private taughtColumns(columns: (Column | null)[], at: number): (Column | null)[] {
    const changed = [...columns]
    for (const lesson of this.lessons) {
      if (lesson.kind !== 'column' || lesson.toLine <= at || lesson.column >= changed.length) continue
      const isBelow = lesson.fromLine > at && this.looked.slice(at + 1, lesson.fromLine).every((other) => other.header === null)
      if (!isBelow && !(lesson.fromLine <= at)) continue
      const before = changed[lesson.column]
      changed[lesson.column] =
        lesson.means === 'nothing' ? { role: 'note' } : { ...(before?.maker ? { maker: before.maker } : {}), role: lesson.means }
    }
    return changed
  }

  /** A column whose head says nothing known, but that holds codes: it is headed by a maker nobody knows. */
  private unknownColumn(index: number, text: string, header: readonly (Column | null)[], at: number): Column | null {
    if (text.trim() === '' || header.some((column) => column?.role === 'code' && !column.maker))
      return text.trim() === '' && index === 0 && !header.some((column) => column?.role === 'symbol') ? { role: 'symbol' } : null
    let [codes, rows] = [0, 0]
    for (let next = at + 1; next < Math.min(this.looked.length, at + 9); next++) {
      const { line, isBlank } = this.looked[next] as Looked
      if (isBlank || line.cells.length !== header.length) continue
      rows += 1
      const cell = line.cells[index]?.text.trim() ?? ''
      if (/^\p{L}{0,3}-?\d{2,6}\p{L}?\b/u.test(cell) || this.known.byCode.has(cell)) codes += 1
    }
    const words = text.replace(/\b(no|nr|number|code)s?\.?$/iu, '').trim()
    const isNamed = /^\p{Lu}/u.test(words) && words.split(' ').length <= 3
    if (rows > 0 && isNamed && codes >= rows * 0.6 && !header.some((column) => column?.role === 'code'))
      return { role: 'code', maker: words, threadLine: null }
    return this.columnByContent(index, header, at)
  }

  /** What stands below a head that says nothing known: names, signs or counts, where no other column holds them. */
  private columnByContent(index: number, header: readonly (Column | null)[], at: number): Column | null {
    const cells: string[] = []
    for (let next = at + 1; next < Math.min(this.looked.length, at + 30); next++) {
      const { line, isBlank } = this.looked[next] as Looked
      const cell = line.cells[index]?.text.trim() ?? ''
      if (!isBlank && line.cells.length === header.length && cell !== '') cells.push(cell)
    }
    if (cells.length < 2) return null
    const most = (test: (cell: string) => boolean) => cells.filter(test).length >= cells.length * 0.75
    const isThere = (role: Column['role']) => header.some((column) => column?.role === role)
    if (!isThere('symbol') && most((cell) => [...cell].length <= 2 && !/^\d+$/.test(cell))) return { role: 'symbol' }
    if (
      !isThere('name') &&
      most((cell) => /\p{L}{3}/u.test(cell) && !/\d/.test(cell)) &&
      new Set(cells).size > cells.length * 0.6
    )
      return { role: 'name' }
    const figures = cells.map((cell) => Number(cell.replace(/[,.]/g, ''))).filter((value) => Number.isFinite(value))
    if (!isThere('stitches') && figures.length >= cells.length * 0.75 && Math.max(...figures) > 40)
      return { role: 'stitches', stitch: null }
    return null
  }

  /** Columns headed by makers are palettes to choose from, unless most rows have a thread in one of them only. */
  private palettesOf(columns: readonly (Column | null)[], codes: readonly number[], at: number): number[][] {
    if (codes.length < 2) return [[]]
    let [both, rows] = [0, 0]
    for (let next = at + 1; next < Math.min(this.looked.length, at + 40); next++) {
      const { line, isBlank, header } = this.looked[next] as Looked
      if (header) break
      if (isBlank || line.cells.length < 2) continue
      if (line.cells.length !== columns.length) continue
      rows += 1
      if (codes.filter((index) => /[\p{L}\p{N}]/u.test(line.cells[index]?.text ?? '')).length > 1) both += 1
    }
    if (rows > 0 && both < rows * 0.5) return [[...codes]]
    // What stands between one maker's column and the next goes with the first, where each has the like.
    return codes.map((index, order) => {
      const end = codes[order + 1] ?? columns.length
      const own = [index]
      for (let column = index + 1; column < end; column++) {
        const role = columns[column]?.role
        const isRepeated = codes.every((other, place) => {
          const stop = codes[place + 1] ?? columns.length
          return columns.slice(other + 1, stop).some((candidate) => candidate?.role === role)
        })
        if (isRepeated) own.push(column)
      }
      return own
    })
  }

  /** A row of the table whose head is in force; true when it was one. */
  private asRow(at: number): boolean {
    const { line, text, tokens, heading } = this.looked[at] as Looked
    const labelled = text.includes(':') ? labelledCells(line, this.known) : null
    if (labelled) {
      const reader = new RowReader({ page: line.page, cells: labelled.cells }, at, labelled.columns, this.contextAt(at))
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
    const isFar = tokens.length > 40 || (this.looked[at]?.isProse === true && (this.looked[at]?.score ?? 0) < 1)
    if (isFar) return false
    const { columns, palettes } = this.header
    const blocks = this.headBlocks()
    if (blocks > 1 && line.cells.length > columns.length / blocks) {
      const own = columns.slice(0, columns.length / blocks)
      const parts = Array.from({ length: blocks }, (_, block) => line.cells.slice(block * own.length, (block + 1) * own.length))
      for (const cells of parts) {
        if (cells.every((cell) => cell.text.trim() === '')) continue
        const [draft] = new RowReader({ ...line, cells }, at, own, this.contextAt(at)).read([[]])
        if (draft) this.keep(draft, 0, at)
      }
      return true
    }
    const drafts = new RowReader(line, at, columns, this.contextAt(at)).read(palettes)
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
    const drafts = partsOf((this.looked[at] as Looked).line, blocks).flatMap((part) =>
      new FreeReader(part, at, lineTokens(part), this.contextAt(at), true).read().slice(0, 1),
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

  private contextAt(at: number): LineContext {
    const block = this.blocks[at]
    return {
      ...this.baseContext(),
      maker: this.carried?.maker ?? null,
      threadLine: this.carried?.threadLine ?? null,
      hasSymbols: block?.hasSymbols ?? null,
      bullets: block?.bullets ?? new Set(),
      plusJoins: block?.plusJoins ?? true,
    }
  }

  /** Named threads have no code: a line of a key by its symbol, its amount, or the lines around it. */
  private isWeakKey(at: number): boolean {
    const { score, isProse: isSentence, tokens, heading, facts } = this.looked[at] as Looked
    if (isSentence || facts.length > 0 || tokens.length > 24) return false
    const isUnderMaker = this.carried !== null
    const before = this.nextOf(at, -1)
    const last = this.lastSource()
    const isNext = last !== null && before === last
    const isUnderHeading = before !== null && this.carried?.line === before
    if (heading.isPlain) return false
    const words = tokens.filter(({ kind }) => kind === 'word')
    if (words.length === 0 && score < 1.5) return false
    if (isUnderMaker && (isNext || isUnderHeading) && words.length <= 7 && score >= 0.3) return true
    const isNamedOnly =
      words.length <= 5 &&
      score >= 0 &&
      before === at - 1 &&
      /^["“]?\p{Lu}[^.:!?]*$/u.test((this.looked[at] as Looked).text.trim())
    if (isUnderMaker && (isNext || isUnderHeading) && isNamedOnly) return true
    return (isNext || isUnderHeading) && score >= 1.4
  }

  private lastSource(): number | null {
    return this.design.lists.at(-1)?.rows.at(-1)?.draft.source ?? null
  }

  private readFree(at: number): void {
    const { line, tokens } = this.looked[at] as Looked
    this.settleTitles(at)
    const drafts = new FreeReader(line, at, tokens, this.contextAt(at), true).read()
    const useful = drafts.filter(({ threads }) => threads.some(({ code, name }) => code || name))
    if (useful.length === 0) {
      this.unread.push(at)
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
    const before = this.list(0).rows.at(-1)
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
  /** Lines that went into the draft of another line. */
  private readonly joinedTo = new Map<Draft, number[]>()

  /** One item over two lines: its number on the one, its name on the other. */
  private goesOn(draft: Draft, at: number): boolean {
    const before = this.list(0).rows.at(-1)?.draft
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
    this.settleTitles(at)
    this.design.hasLines = true
    const stitch = draft.worked?.value[0] ?? this.section?.stitches[0] ?? 'full'
    const said = this.strandsFor.get(stitch) ?? this.strandsFor.get('all')
    const strands = (draft.worked === null ? this.sectionStrands : null) ?? said ?? null
    this.list(palette).rows.push({ draft, carried: this.carried, section: draft.worked ? null : this.section, strands, palette })
  }

  private takeFacts(at: number, facts: readonly FoundFact[]): void {
    const { design } = this
    if (design.hasLines) {
      const isHead = facts.some(
        ({ fact }) => fact === 'title' || fact === 'widthStitches' || fact === 'designer' || fact === 'measuredWidthUm',
      )
      const isHeld = Object.values(design.facts).some((fact) => fact !== null)
      const isAgain = facts.some(
        ({ fact }) => design.facts[fact] !== null && fact !== 'count' && fact !== 'cloth' && fact !== 'over' && fact !== 'weave',
      )
      const hasKeyAfter = this.lastKeyish > at
      if (
        isHead &&
        (hasKeyAfter
          ? isHeld || this.pending.length > 0 || facts.some(({ fact }) => fact === 'title')
          : isAgain && (this.pending.length > 0 || facts.some(({ fact }) => fact === 'title')))
      )
        this.startDesign()
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
      title.line === this.nextOf(at, -1) &&
      isDesignLabel((this.looked[at] as Looked).text)
    )
  }

  private giveFact<K extends keyof ReadFacts>({ fact, value, confidence, weight }: FoundFact & { fact: K }, at: number): void {
    const { facts, weights } = this.design
    const held = facts[fact]
    const certainty = (this.looked[at]?.line.cells ?? []).reduce((least, cell) => Math.min(least, cell.certainty), 1)
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

  private startDesign(): void {
    const titles = this.pending
    this.newDesign()
    this.pending = titles
    this.takeTitlesUp()
  }

  /** A key begins: what waits to be a title is one, if it opens a design. */
  private settleTitles(at: number): void {
    const [title] = this.pending
    if (title === undefined) return
    if (!this.design.hasLines) this.takeTitlesUp()
    else if (at - title <= 8 && this.opensDesign(title)) this.startDesign()
    else {
      this.unread.push(...this.pending)
      this.pending = []
    }
  }

  /** A heading in the middle opens a design only where what follows it is a head of its own. */
  private opensDesign(title: number): boolean {
    for (let next = title + 1; next < Math.min(this.looked.length, title + 8); next++) {
      const { facts, header, isBlank } = this.looked[next] as Looked
      if (isBlank) continue
      if (header || facts.some(({ fact }) => fact !== 'weave')) return true
      if (this.isKeyish(next)) return false
    }
    return false
  }

  private takeTitlesUp(): void {
    const titles = this.pending
    this.pending = []
    // A name in capitals or quotes is the title, whatever stands above it.
    const [one, two] = titles
    if (one !== undefined && two !== undefined && this.isSetOff(two) && !this.isSetOff(one)) titles.reverse()
    for (const at of titles) this.takeTitleUp(at, titles.length)
  }

  private isSetOff(at: number): boolean {
    const text = (this.looked[at] as Looked).text.trim()
    return /^["“]/u.test(text) || (text === text.toUpperCase() && /\p{Lu}{3}/u.test(text))
  }

  /** Below a title by itself there are facts, as a head has them: else it may be anything. */
  private isHead(at: number): boolean {
    for (let next = at + 1; next < Math.min(this.looked.length, at + 4); next++)
      if ((this.looked[next]?.facts.length ?? 0) > 0) return true
    return false
  }

  private takeTitleUp(at: number, count: number): void {
    const { line } = this.looked[at] as Looked
    const text = line.cells
      .map((cell) => cell.text)
      .join(' ')
      .trim()
    const certainty = line.cells.reduce((least, cell) => Math.min(least, cell.certainty), 1)
    const note = (fact: 'title' | 'designer', value: string, confidence: number) =>
      this.giveFact(
        { fact, value, confidence: Math.min(confidence, certainty), weight: confidence } as FoundFact & { fact: 'title' },
        at,
      )
    const both = count === 1 || this.design.facts.title === null ? titleAndDesigner(text) : null
    if (both) {
      note('title', both.title, both.confidence)
      note('designer', both.designer, both.confidence)
      return
    }
    const cells = line.cells.map((cell) => cell.text.trim()).filter((cell) => cell !== '')
    if (cells.length === 2 && this.design.facts.title === null && this.design.facts.designer === null) {
      note('title', cells[0] as string, 0.82)
      note('designer', cells[1] as string, 0.78)
      return
    }
    const plain = titleWithin(text)
    if (this.design.facts.title === null) note('title', plain, this.isHead(at) ? 0.86 : 0.76)
    else if (
      this.design.facts.designer === null &&
      plain.split(' ').length <= 5 &&
      plain.split(' ').every((word) => /^\p{Lu}/u.test(word) || /^(and|of|the|&|for)$/.test(word))
    )
      note('designer', plain, 0.7)
    else this.unread.push(at)
  }

  /** A heading of makers, stitches or strands; false when it is none. */
  private takeHeading(at: number, heading: Heading): boolean {
    const { makers, stitches, strands, left, isSaid, isPlain, namesKind } = heading
    if (left.length > 0) return this.takeUnknownMaker(at)
    if (makers.length === 1 && this.lastKeyish < at && this.takeMakerBehind(at, heading)) return true
    if (makers.length > 0) {
      const [first] = makers as [Heading['makers'][number]]
      this.settleTitles(at)
      this.carried = {
        maker: first.maker,
        threadLine: first.threadLine,
        confidence: Math.min(first.certainty, makers.length > 1 ? 0.85 : 0.95),
        line: at,
      }
      const isOwnSection = stitches.length === 1 && !isSaid
      if (isOwnSection || (strands.length === 1 && stitches.length === 0 && !isSaid)) {
        this.section = stitches.length > 0 ? { stitches: [...stitches], line: at } : null
        this.sectionStrands = strands[0] ? { value: strands[0].value, line: at } : null
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
      this.settleTitles(at)
      const next = this.nextOf(at)
      const isFollowed =
        next !== null &&
        this.looked[next]?.heading.left.length === 0 &&
        (this.looked[next]?.heading.stitches.length ?? 0) > 0 &&
        (this.looked[next]?.heading.strands.length ?? 0) > 0 &&
        !this.isKeyish(next)
      const before = this.nextOf(at, -1)
      const isFollowing = before !== null && this.statements.has(before)
      if (strands.length > 0 && (strands.length > 1 || stitches.length > 1 || isSaid || isFollowed || isFollowing)) {
        this.noteStrands(heading, at)
        this.statements.add(at)
        return true
      }
      if (this.carried === null) this.isSectionFirst = true
      this.section = { stitches: stitches.slice(0, 3), line: at }
      this.sectionStrands = strands[0] ? { value: strands[0].value, line: at } : null
      return true
    }
    if (strands.length > 0) {
      this.noteStrands(heading, at)
      return true
    }
    if (isPlain && (this.looked[at] as Looked).tokens.length > 0) {
      if (namesKind) {
        this.section = null
        this.sectionStrands = null
      }
      return true
    }
    return false
  }
  private readonly statements = new Set<number>()

  private noteStrands({ strands }: Heading, at: number): void {
    for (const { value, stitches } of strands) {
      for (const stitch of stitches.length > 0 ? stitches : (['all'] as const)) this.strandsFor.set(stitch, { value, line: at })
    }
  }

  /** "Brindlequay, if nothing else is said": one maker in a line of small words before the key. */
  private takeMakerSaid(at: number): boolean {
    const { heading, tokens, facts } = this.looked[at] as Looked
    const isSmall = heading.left.every(
      (word) =>
        !/\d/.test(word) && (word === word.toLowerCase() || sentenceWords.has(word.toLowerCase()) || word === tokens[0]?.text),
    )
    if (heading.makers.length !== 1 || !isSmall || facts.length > 0 || tokens.length > 20) return false
    if (this.lastKeyish < at) return this.takeMakerBehind(at, heading)
    return this.takeSaid(heading, at)
  }

  private isMakerBehind = false
  /** "All shades are Brindlequay" below the key holds for the lines above it that name no maker. */
  private takeMakerBehind(at: number, { makers, isSaid }: Heading): boolean {
    const [first] = makers
    if (!first || !isSaid || this.isMakerBehind) return false
    this.isMakerBehind = true
    const carried = { maker: first.maker, threadLine: first.threadLine, confidence: Math.min(first.certainty, 0.82), line: at }
    let isTaken = false
    for (const row of this.design.lists.flatMap(({ rows }) => rows)) {
      if (row.carried) continue
      row.carried = carried
      isTaken = true
    }
    return isTaken
  }

  /** What a sentence says of makers and strands: it holds for all that follows. */
  private takeSaid(heading: Heading, at: number): boolean {
    const { makers, strands } = heading
    const isMaker = makers.length > 0 && (heading.isSaid || makers.length === 1)
    if (!isMaker && strands.length === 0) return false
    if (isMaker) {
      const [first] = makers as [Heading['makers'][number]]
      this.carried = { maker: first.maker, threadLine: first.threadLine, confidence: Math.min(first.certainty, 0.9), line: at }
    }
    this.noteStrands(heading, at)
    return true
  }

  /** A group under another maker whose symbols are those of the group before is another palette of the same design. */
  private newPalette(at: number): void {
    const last = this.design.lists.at(-1)
    if (!last || last.rows.length < 3) return
    const before = new Set(last.rows.flatMap(({ draft }) => (draft.symbol ? [draft.symbol.value] : [])))
    if (before.size < 3) return
    let [same, all] = [0, 0]
    for (let next = at + 1; next < Math.min(this.looked.length, at + 60); next++) {
      const { line, tokens, isBlank, heading } = this.looked[next] as Looked
      if (isBlank) continue
      if (!this.isKeyish(next) && heading.makers.length > 0 && heading.left.length === 0) break
      const first = line.cells.length > 1 ? (line.cells[0]?.text ?? '').trim() : (tokens[0]?.text ?? '')
      if ([...first].length > 2 || first === '') continue
      all += 1
      if (before.has(first)) same += 1
    }
    if (all >= 3 && same >= all * 0.75) {
      this.listBase = this.design.lists.length
      this.section = null
    }
  }

  private takeUnknownMaker(at: number): boolean {
    const { tokens, isProse: isSentence } = this.looked[at] as Looked
    if (isSentence) return false
    const found = unknownMaker(tokens)
    if (!found) return false
    const next = this.nextOf(at)
    const isBeforeKey = next !== null && ((this.looked[next]?.score ?? 0) >= 1.4 || this.looked[next]?.header !== null)
    if (
      !isBeforeKey ||
      !(
        found.isSure ||
        (this.design.hasLines &&
          this.design.lists.at(-1)?.rows.at(-1)?.carried?.line !== undefined &&
          /:$/.test((this.looked[at] as Looked).text.trim()))
      )
    )
      return false
    this.settleTitles(at)
    this.learnMaker(found.maker)
    this.carried = { maker: found.maker, threadLine: found.threadLine, confidence: found.isSure ? 0.86 : 0.6, line: at }
    if (this.section?.stitches[0] === 'bead') this.section = null
    this.newPalette(at)
    return true
  }

  /** A short line that could be a title waits for what comes after it. */
  private takeTitle(at: number): boolean {
    const { tokens, text, line, heading } = this.looked[at] as Looked
    const words = tokens.filter(({ kind }) => kind === 'word')
    const trimmed = text.trim()
    if (words.length === 0 || words.length > 10 || trimmed.length > 70 || /[.:!?;,]$/.test(trimmed) || line.cells.length > 3)
      return false
    if (!/^["“‘'(]?[\p{Lu}\p{N}]/u.test(trimmed)) return false
    if (isAboutSheet(trimmed)) return false
    if (heading.makers.length > 0 || heading.strands.length > 0 || words.some(({ key }) => titleless.has(key))) return false
    const { title, designer } = this.design.facts
    if (!this.design.hasLines && title !== null && designer !== null) return false
    this.pending.push(at)
    if (this.pending.length > 2) this.unread.push(this.pending.shift() as number)
    return true
  }

  private finished(): ReadDesign[] {
    if (this.design.hasLines && Object.values(this.design.facts).some((fact) => fact !== null)) this.unread.push(...this.pending)
    else this.takeTitlesUp()
    return this.designs.map(({ facts, lists }) => ({
      facts,
      lists: lists.filter(({ rows }) => rows.length > 0).map((list) => this.finishedList(list)),
    }))
  }

  private finishedList(list: OpenList): ReadList {
    const hints: NumberHints = {
      said: this.numbers,
      order: list.order,
      hasStrandsFromHeading: list.rows.filter(({ strands }) => strands !== null).length > list.rows.length / 2,
      taught: this.lessons,
    }
    if (this.signs.get('x') === 'strands' || this.signs.get('×') === 'strands')
      for (const { draft } of list.rows) timesAreStrands(draft)
    settleNumbers(
      list.rows.map(({ draft }) => draft),
      (source) => this.looked[source]?.line.cells.length ?? 1,
      hints,
    )
    const makers = new Map<string, number>()
    for (const { draft, carried } of list.rows)
      for (const { maker } of draft.threads) {
        const named = maker?.value ?? carried?.maker
        if (named) makers.set(named, (makers.get(named) ?? 0) + 1)
      }
    const [most] = [...makers].sort((a, b) => b[1] - a[1])
    const listMaker = most && most[1] >= list.rows.length * 0.5 ? most[0] : null
    const lineOfList = likelyLine(
      list.rows.map(({ draft }) => draft),
      this.known,
    )
    return {
      name: list.name,
      lines: list.rows.map((row) =>
        this.finishedLine(row, listMaker ?? lineOfList?.maker ?? null, lineOfList?.threadLine ?? null),
      ),
    }
  }

  private finishedLine(
    { draft, carried, section, strands }: Draughted,
    listMaker: string | null,
    listLine: string | null,
  ): ReadKeyLine {
    const from = [draft.source, ...(this.joinedTo.get(draft) ?? [])]
    const worked = draft.worked ?? (section && { value: section.stitches, confidence: 0.93, line: section.line })
    const stitch: Stitch = worked?.value[0] ?? 'full'
    const threads = draft.threads.map((thread) => this.finishedThread(thread, carried, strands, listMaker, listLine, stitch))
    const amounts = draft.amounts.map((amount): ReadAmount => {
      const field = (value: number) => ({ value, confidence: amount.confidence, line: draft.source })
      if (amount.kind === 'stitches') return { kind: 'stitches', stitch: amount.stitch ?? stitch, count: field(amount.count) }
      if (amount.kind === 'put-ups') return { kind: 'put-ups', hundredths: field(amount.hundredths), putUpWord: amount.word }
      return { kind: 'length', tenths: field(amount.tenths) }
    })
    const rest = [...draft.rest, ...draft.lone.map(({ value }) => String(value))].filter((text) => text.trim() !== '')
    return { from, symbol: draft.symbol, threads, stitches: worked, amounts, rest: rest.length > 0 ? rest.join(' ') : null }
  }

  /** Whether what names the thread came as text, and was not read from a picture. */
  private isTyped({ code, name }: NamedThread): boolean {
    const at = code?.line ?? name?.line
    return at === null || at === undefined || (this.looked[at]?.line.cells ?? []).every(({ certainty }) => certainty >= 1)
  }

  private taughtStrands(stitch: Stitch): ReadField<number> | null {
    const lesson = this.lessons.findLast((one) => one.kind === 'strands' && (one.stitch === null || one.stitch === stitch))
    return lesson?.kind === 'strands' ? { value: lesson.strands, confidence: 0.95, line: null } : null
  }

  private finishedThread(
    thread: Draft['threads'][number],
    carried: Carried | null,
    strands: { value: number; line: number } | null,
    listMaker: string | null,
    listLine: string | null,
    stitch: Stitch,
  ): { named: NamedThread; match: ThreadMatch } {
    let maker = thread.maker
    let threadLine = thread.threadLine
    if (!maker && carried) maker = { value: carried.maker, confidence: carried.confidence, line: carried.line }
    if (!threadLine && carried?.threadLine && maker && nameKey(maker.value) === nameKey(carried.maker))
      threadLine = { value: carried.threadLine, confidence: carried.confidence, line: carried.line }
    for (const lesson of this.lessons) {
      if (lesson.kind !== 'maker') continue
      const isSame = (one: string | null | undefined, other: string | null) => nameKey(one ?? '') === nameKey(other ?? '')
      if (!isSame(maker?.value, lesson.was.maker) || !isSame(threadLine?.value, lesson.was.threadLine)) continue
      maker = { value: lesson.maker, confidence: 0.95, line: maker?.line ?? null }
      threadLine =
        lesson.threadLine === null ? threadLine : { value: lesson.threadLine, confidence: 0.95, line: threadLine?.line ?? null }
    }
    const named: NamedThread = {
      maker,
      threadLine,
      code: thread.code,
      name: thread.name,
      strands:
        thread.strands ??
        this.taughtStrands(stitch) ??
        (strands && { value: strands.value, confidence: 0.9, line: strands.line }),
    }
    const taught = this.lessons.findLast(
      (lesson) =>
        lesson.kind === 'thread' &&
        lesson.code === (named.code?.value ?? null) &&
        nameKey(lesson.maker ?? '') === nameKey(named.maker?.value ?? '') &&
        (lesson.code !== null || nameKey(lesson.name ?? '') === nameKey(named.name?.value ?? '')),
    )
    if (taught?.kind === 'thread' && this.known.threads.has(taught.threadId))
      return { named, match: { kind: 'known', threadId: taught.threadId, confidence: 0.97, by: 'taught' } }
    return { named, match: matchThread(named, { maker: listMaker, threadLine: listLine }, this.known, this.isTyped(named)) }
  }
}
