import { parseThreadLength } from '#lib/quantity/thread-length'
import type { Stitch } from '#lib/thread/stitches'
import type { SourceCell, SourceLine } from '../page-text/page-text'
import { findAmounts } from './amounts'
import { alignCells, type Column } from './columns'
import type { Draft, DraftAmount, DraftThread, LineContext } from './drafts'
import { FreeReader } from './read-line'
import type { ReadField } from './reading'
import { phraseAt, tokensOf } from './tokens'
import { nameKey } from './vocabulary'
import { lengthUnits, numberWords, stitchPhrases } from './words'

const isNothing = (text: string): boolean => /^[\s\-–—.·x×n/a0]*$/iu.test(text) && !/^[x×]$/iu.test(text.trim())
const isBlankCell = (text: string): boolean => /^[\s\-–—.·]*$/u.test(text)

/** A row of a table, its cells by the columns they stand in. */
export class RowReader {
  private readonly slots: SourceCell[]
  private readonly sure: number

  constructor(
    private readonly line: SourceLine,
    private readonly source: number,
    private readonly columns: readonly (Column | null)[],
    private readonly context: LineContext,
  ) {
    const cells = line.cells
    const slots = alignCells(cells, columns)
    this.sure = cells.length === columns.length ? 0.97 : 0.86
    this.slots = slots.map((held) => ({
      text: held
        .map(({ text }) => text.trim())
        .join(' ')
        .trim(),
      certainty: held.reduce((least, { certainty }) => Math.min(least, certainty), 1),
      box: held[0]?.box ?? null,
    }))
  }

  /** The line in each of the palettes that columns of makers make; null in a palette where it has no thread. */
  read(palettes: readonly (readonly number[])[]): (Draft | null)[] {
    return palettes.map((own, palette) => this.draft(own, palette, palettes))
  }

  private field = <T>(value: T, confidence: number, cell: SourceCell): ReadField<T> => ({
    value,
    confidence: Math.min(confidence, cell.certainty),
    line: this.source,
  })

  private draft(own: readonly number[], palette: number, palettes: readonly (readonly number[])[]): Draft | null {
    const elsewhere = new Set(palettes.flatMap((columns, index) => (index === palette ? [] : columns)))
    const draft: Draft = {
      source: this.source,
      symbol: null,
      threads: [],
      worked: null,
      amounts: [],
      lone: [],
      rest: [],
      isContinued: false,
      beside: { before: null, behind: null },
    }
    const cellsOf = (role: Column['role']) =>
      this.columns.flatMap((column, at) =>
        column?.role === role && !elsewhere.has(at) && this.slots[at]?.text
          ? [{ column, cell: this.slots[at] as SourceCell, at }]
          : [],
      )
    const makerCell = cellsOf('maker')[0]?.cell
    const makers = makerCell ? splitBlend(makerCell.text) : []
    for (const { column, cell, at } of [...cellsOf('code'), ...cellsOf('thread')]) {
      if (isBlankCell(cell.text)) continue
      const isCode = column.role === 'code'
      draft.threads.push(
        ...this.named(cell, column, makers.length === 1 ? (makers[0] ?? null) : null, isCode, draft, own.includes(at)),
      )
    }
    const hasCode = this.columns.some((column) => column?.role === 'code' || column?.role === 'thread')
    for (const { column, cell } of hasCode ? [] : cellsOf('name')) {
      if (/\d/.test(cell.text))
        draft.threads.push(...this.named(cell, column, makers.length === 1 ? (makers[0] ?? null) : null, false, draft, false))
    }
    // A thread that is called by a name is not called by the one that stands behind another palette's number as well.
    const isNamed = own.some((at) => /^\D+$/u.test(this.slots[at]?.text ?? ''))
    const isOthers = (at: number) => {
      const before = Math.max(...palettes.flat().filter((column) => column < at))
      return isNamed && palettes.length > 1 && elsewhere.has(before)
    }
    const nameCell = cellsOf('name').find(({ cell, at }) => !isBlankCell(cell.text) && !isOthers(at))?.cell
    if (nameCell) this.giveNames(draft, nameCell)
    if (draft.threads.length === 0) return null
    if (makerCell) this.giveMakers(draft, makerCell, makers)
    const lineCell = cellsOf('thread line')[0]?.cell
    if (lineCell && !isBlankCell(lineCell.text)) {
      const parts = splitBlend(lineCell.text)
      draft.threads.forEach((thread, index) => {
        thread.threadLine ??= this.field(
          parts.length === draft.threads.length ? (parts[index] as string) : lineCell.text,
          this.sure,
          lineCell,
        )
      })
    }
    const symbol = cellsOf('symbol')[0]
    if (symbol) this.giveSymbol(draft, symbol.cell)
    for (const { cell, column } of cellsOf('strands')) this.giveStrands(draft, cell, column)
    for (const { cell } of cellsOf('worked in')) this.giveWorked(draft, cell)
    for (const { cell, column } of cellsOf('stitches')) this.giveAmount(draft, cell, 'stitches', column)
    for (const { cell, column } of cellsOf('backstitch'))
      this.giveAmount(draft, cell, 'stitches', { ...column, stitch: 'backstitch' })
    for (const { cell, column } of cellsOf('put-ups')) this.giveAmount(draft, cell, 'put-ups', column)
    for (const { cell, column } of cellsOf('length')) this.giveAmount(draft, cell, 'length', column)
    for (const { cell } of cellsOf('note')) if (cell.text && /[\p{L}\p{N}]{2}/u.test(cell.text)) draft.rest.push(cell.text)
    this.columns.forEach((column, at) => {
      if (column === null && this.slots[at]?.text) this.giveUnnamed(draft, this.slots[at] as SourceCell)
    })
    return draft
  }

  /** Threads named in a cell, which may be a blend, and may say strands and name as well. */
  private named(
    cell: SourceCell,
    column: Column,
    maker: string | null,
    isCode: boolean,
    draft: Draft,
    isOwn: boolean,
  ): DraftThread[] {
    const line: SourceLine = { page: this.line.page, cells: [cell] }
    const context: LineContext = {
      ...this.context,
      maker: column.maker ?? maker ?? this.context.maker,
      hasSymbols: false,
      hasCodes: true,
    }
    const tokens = tokensOf(cell.text, 0, cell.certainty)
    const [read] = new FreeReader(line, this.source, tokens, context, false).read()
    if (!read) return []
    for (const thread of read.threads) {
      // What stands in a column of codes is a code, of whatever shape; read as a name only where a code stands before it.
      if (isCode && thread.code === null && thread.name) {
        thread.code = { ...thread.name, confidence: Math.min(thread.name.confidence, column.maker ? 0.86 : 0.93) }
        thread.name = null
      } else if (thread.code)
        thread.code = {
          ...thread.code,
          confidence: Math.min(cell.certainty, Math.max(thread.code.confidence, isCode ? this.sure : 0)),
        }
      if (column.maker && thread.maker === null) {
        thread.maker = this.field(column.maker, column.isGuess ? 0.75 : 0.95, cell)
        if (column.threadLine) thread.threadLine = this.field(column.threadLine, 0.95, cell)
      }
    }
    // A code that is no thread's by itself: the cell's lone number.
    if (
      isCode &&
      read.threads.length === 1 &&
      read.threads[0]?.code === null &&
      read.lone.length === 1 &&
      /^\d+$/.test(cell.text)
    ) {
      ;(read.threads[0] as DraftThread).code = this.field(cell.text, this.sure, cell)
      read.lone = []
    }
    draft.lone.push(...read.lone)
    draft.rest.push(...read.rest)
    draft.amounts.push(...read.amounts)
    draft.worked ??= read.worked
    return isOwn || isCode || read.threads.some(({ code, name }) => code || name)
      ? read.threads.filter(({ code, name }) => code || name)
      : []
  }

  private giveNames(draft: Draft, cell: SourceCell): void {
    const free = draft.threads.filter(({ name }) => name === null)
    if (draft.threads.length === 0) {
      draft.threads.push({
        maker: null,
        threadLine: null,
        code: null,
        name: this.field(cell.text, this.sure - 0.02, cell),
        strands: null,
      })
      return
    }
    if (free.length === 0) {
      if (!draft.threads.some(({ name }) => name && nameKey(name.value) === nameKey(cell.text))) draft.rest.push(cell.text)
      return
    }
    if (draft.threads.length > 1) {
      const parts = splitBlend(cell.text)
      if (parts.length === draft.threads.length) {
        draft.threads.forEach((thread, index) => {
          thread.name ??= this.field(parts[index] as string, 0.9, cell)
        })
        return
      }
    }
    const [first] = free
    if (first) first.name = this.field(cell.text, draft.threads.length > 1 ? 0.6 : this.sure, cell)
  }

  private giveMakers(draft: Draft, cell: SourceCell, parts: string[]): void {
    draft.threads.forEach((thread, index) => {
      const text =
        parts.length === draft.threads.length ? (parts[index] as string) : parts.length === 1 ? (parts[0] as string) : null
      if (text === null || thread.maker) return
      const tokens = tokensOf(text, 0, cell.certainty)
      const phrase = phraseAt(this.context.makers, tokens, 0)
      const rest = phrase ? tokens.slice(phrase.count) : []
      const lines = phrase ? this.context.known.makers.get(nameKey(phrase.means))?.lines : undefined
      const line = rest.length > 0 ? lines?.get(rest.flatMap(({ words }) => words).join(' ')) : undefined
      thread.maker = this.field(phrase ? phrase.means : text, this.sure, cell)
      if (phrase && rest.length > 0)
        thread.threadLine ??= this.field(line ?? rest.map(({ text: word }) => word).join(' '), line ? this.sure : 0.75, cell)
    })
  }

  private giveSymbol(draft: Draft, cell: SourceCell): void {
    const text = cell.text.trim()
    const inner = /^[([](\S{1,2})[)\]]$/u.exec(text)
    if ([...text].length <= 3) draft.symbol = this.field(inner ? (inner[1] as string) : text, this.sure, cell)
    else if (text.length <= 12) {
      const phrase = phraseAt(stitchPhrases, tokensOf(text, 0, cell.certainty), 0)
      if (phrase) draft.worked ??= this.field([phrase.means], 0.93, cell)
      else draft.symbol = this.field(text, 0.7, cell)
    } else draft.rest.push(text)
  }

  private giveStrands(draft: Draft, cell: SourceCell, column: Column): void {
    if (isNothing(cell.text)) return
    const tokens = tokensOf(cell.text, 0, cell.certainty)
    const values = tokens.flatMap((token) => {
      const value = token.figure?.value ?? numberWords[token.key]
      return value !== undefined && Number.isInteger(value) && value >= 1 && value <= 12 ? [value] : []
    })
    const [value] = values
    if (value === undefined) {
      draft.rest.push(cell.text)
      return
    }
    if (column.stitch && column.stitch !== 'full' && draft.threads.some(({ strands }) => strands)) {
      draft.rest.push(cell.text)
      return
    }
    if (column.stitch && column.stitch !== 'full') draft.worked ??= this.field([column.stitch], 0.75, cell)
    const count = draft.threads.length
    const isEach = tokens.some(({ key }) => key === 'each')
    draft.threads.forEach((thread, index) => {
      if (values.length === count) thread.strands ??= this.field(values[index] as number, this.sure, cell)
      else if (values.length === 1)
        thread.strands ??= this.field(
          value % count === 0 && !isEach ? value / count : value,
          isEach ? 0.94 : count === value ? 0.75 : 0.5,
          cell,
        )
      else if (count === 1) thread.strands ??= this.field(value, 0.6, cell)
    })
    if (values.length === 2 && count === 1 && tokens.length > 2) draft.rest.push(cell.text)
  }

  private giveWorked(draft: Draft, cell: SourceCell): void {
    const tokens = tokensOf(cell.text, 0, cell.certainty)
    const found: Stitch[] = []
    for (let at = 0; at < tokens.length; at++) {
      const phrase = phraseAt(stitchPhrases, tokens, at)
      if (!phrase) continue
      if (!found.includes(phrase.means)) found.push(phrase.means)
      at += phrase.count - 1
    }
    if (found.length > 0) draft.worked = this.field(found, 0.95, cell)
    else if (!isBlankCell(cell.text)) draft.rest.push(cell.text)
  }

  private giveAmount(draft: Draft, cell: SourceCell, kind: 'stitches' | 'put-ups' | 'length', column: Column): void {
    if (isBlankCell(cell.text)) return
    const tokens = tokensOf(cell.text, 0, cell.certainty)
    const found = findAmounts(tokens, () => false).filter((amount) => amount.kind !== 'strands')
    if (found.length > 0) {
      draft.amounts.push(
        ...(found as Exclude<(typeof found)[number], { kind: 'strands' }>[]).map(
          (amount): DraftAmount => ({ ...amount, confidence: Math.min(0.95, cell.certainty) }),
        ),
      )
      return
    }
    const figures = tokens.filter(({ figure }) => figure)
    const value = figures[0]?.figure?.value ?? numberWords[tokens[0]?.key ?? '']
    if (value === undefined || figures.length > 1) {
      // "1 1/2" apart by more than a blank, or a sum: a person looks at it.
      if (!/^(n\/a|none|nil|x)$/i.test(cell.text)) draft.rest.push(cell.text)
      return
    }
    if (value === 0) return
    const confidence = Math.min(this.sure, cell.certainty)
    const at = { first: 0, last: 0, confidence }
    if (kind === 'stitches') {
      if (Number.isInteger(value)) draft.amounts.push({ kind, stitch: column.stitch ?? null, count: value, ...at })
      else draft.rest.push(cell.text)
    } else if (kind === 'put-ups') {
      if (value <= 200) draft.amounts.push({ kind, hundredths: Math.round(value * 100), word: null, ...at })
      else draft.rest.push(cell.text)
    } else {
      const tenths = parseThreadLength(`${value} ${lengthUnits[column.unit ?? 'm']}`, 'm')
      if (tenths) draft.amounts.push({ kind, tenths, ...at })
    }
  }

  /** A cell under no heading that is known: only what says itself what it is. */
  private giveUnnamed(draft: Draft, cell: SourceCell): void {
    const tokens = tokensOf(cell.text, 0, cell.certainty)
    const [read] = new FreeReader(
      { page: this.line.page, cells: [cell] },
      this.source,
      tokens,
      { ...this.context, hasCodes: true },
      false,
    ).read()
    if (!read) return
    draft.amounts.push(...read.amounts)
    draft.worked ??= read.worked
    const strands = read.threads[0]?.strands
    const [only] = draft.threads
    if (strands && only && draft.threads.length === 1) only.strands ??= strands
    if (draft.symbol === null && [...cell.text].length <= 2 && !/\d/.test(cell.text))
      draft.symbol = this.field(cell.text, 0.75, cell)
    else if (read.amounts.length === 0 && !strands && !read.worked) draft.rest.push(cell.text)
  }
}

/** The parts of a blend's cell: "Pine + Damson", "Larkholm / Quillwater". */
function splitBlend(text: string): string[] {
  const parts = text.split(/\s*\+\s*|\s+[/&]\s+|\s+with\s+|(?<=\p{L}{3})\/(?=\p{L}{3})/u).filter((part) => part !== '')
  return parts.length > 0 ? parts : [text]
}
