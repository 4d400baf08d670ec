import type { Result } from '#lib/result'
import type { CellMark, CellMarkKind, Merge, Sheet, SheetRow } from '../sheet'
import { dayOfSerial, formatFigures } from './number-format'
import {
  type ByteElements,
  RichText,
  readXml,
  readXmlOfMany,
  refusingFaults,
  relationsOf,
  unescapeUnits,
  type Workbook,
} from './workbook'
import { WorkbookFault, type WorkbookRefused } from './workbook-refused'
import { attributeOf, type XmlHandler } from './xml-scanner'

const mostCells = 4_000_000
const mostRows = 200_100
const mostColumns = 500
const mostMerges = 100_000
const mostNotes = 50_000

/**
 * Read the cells of one sheet as a person who looks at it sees them, as far as that matters to a table: codes with the zeros their format
 * puts in front, days as YYYY-MM-DD, percentages as such, ticks as yes and no. Of a formula the answer the workbook holds is taken.
 *
 * @throws {RangeError} when the workbook has no sheet at that place.
 */
export const readSheet = (workbook: Workbook, place: number): Promise<Result<Sheet, WorkbookRefused>> =>
  refusingFaults(async () => {
    const sheet = workbook.sheets[place]
    if (sheet === undefined) throw new RangeError(`readSheet: no sheet ${place}`)
    const reader = new SheetReader(workbook)
    const isThere = await readXmlOfMany(workbook.zip, sheet.part, reader, reader.valueCells)
    if (!isThere) throw new WorkbookFault({ kind: 'workbook-broken' })
    const notes = await readNotes(workbook, sheet.part)
    return { rows: inOrder(reader.rows), merges: reader.merges, marks: [...reader.marks, ...notes] }
  })

/** Rows should stand in their order, and in most files do; of two of one number the cells are put together. */
function inOrder(rows: SheetRow[]): SheetRow[] {
  if (rows.every((row, at) => at === 0 || row.rowNumber > (rows[at - 1] as SheetRow).rowNumber)) return rows
  const byNumber = new Map<number, SheetRow>()
  for (const row of rows) {
    const known = byNumber.get(row.rowNumber)
    if (known === undefined) byNumber.set(row.rowNumber, row)
    else for (const [at, cell] of row.cells.entries()) if (cell !== '') fill(known.cells, at, cell)
  }
  return [...byNumber.values()].sort((left, right) => left.rowNumber - right.rowNumber)
}

const isBlank = (text: string): boolean => text === '' || (text.charCodeAt(0) <= 0x20 && text.trim() === '')

function fill(cells: string[], column: number, text: string): void {
  while (cells.length < column) cells.push('')
  cells[column] = text
}

const quote = 0x22
const openTag = 0x3c

/** ` s="` at that place, for the letter s. */
const isNamed = (bytes: Uint8Array, at: number, letter: number): boolean =>
  bytes[at] === 0x20 && bytes[at + 1] === letter && bytes[at + 2] === 0x3d && bytes[at + 3] === quote

/** `</v></c>` at that place. */
const isCellEnd = (bytes: Uint8Array, at: number): boolean =>
  bytes[at] === openTag &&
  bytes[at + 1] === 0x2f &&
  bytes[at + 2] === 0x76 &&
  bytes[at + 3] === 0x3e &&
  bytes[at + 4] === openTag &&
  bytes[at + 5] === 0x2f &&
  bytes[at + 6] === 0x63 &&
  bytes[at + 7] === 0x3e

/** Read a sheet's XML. What costs time is its cells, so the commonest shape of one is read byte by byte (`valueCells`), and costs no garbage. */
class SheetReader implements XmlHandler {
  readonly rows: SheetRow[] = []
  readonly merges: Merge[] = []
  readonly marks: CellMark[] = []
  private row: SheetRow | null = null
  private rowNumber = 0
  private column = -1
  private attributes = ''
  private isInCell = false
  /** Which text of the cell is being read: its value, a text in place, or none that counts. */
  private reading: 'value' | 'text' | null = null
  private value = ''
  private isFormula = false
  private isInReading = false
  private cellCount = 0

  constructor(private readonly workbook: Workbook) {}

  /** A cell with a value and no formula, as nearly all are: `<c r="B12" s="3" t="s"><v>40</v></c>`. */
  readonly valueCells: ByteElements = {
    letter: 0x63,
    take: (bytes, from) => {
      let at = from + 6
      if (bytes[from + 3] !== 0x72 || bytes[from + 5] !== quote) return at < bytes.length ? -1 : -2
      let column = 0
      let letter = bytes[at] as number
      for (; letter >= 0x41 && letter <= 0x5a; letter = bytes[++at] as number) column = column * 26 + letter - 0x40
      if (column === 0 || at - from > 9) return at < bytes.length ? -1 : -2
      while (letter >= 0x30 && letter <= 0x39) letter = bytes[++at] as number
      let style = 0
      if (isNamed(bytes, at + 1, 0x73)) {
        at += 5
        for (letter = bytes[at] as number; letter >= 0x30 && letter <= 0x39; letter = bytes[++at] as number)
          style = style * 10 + letter - 0x30
      }
      const isShared = isNamed(bytes, at + 1, 0x74) && bytes[at + 5] === 0x73 && bytes[at + 6] === quote
      if (isShared) at += 6
      if (
        bytes[at] !== quote ||
        bytes[at + 1] !== 0x3e ||
        bytes[at + 2] !== openTag ||
        bytes[at + 3] !== 0x76 ||
        bytes[at + 4] !== 0x3e
      )
        return at + 4 < bytes.length ? -1 : -2
      const valueAt = at + 5
      let number = 0
      at = valueAt
      for (letter = bytes[at] as number; letter >= 0x30 && letter <= 0x39; letter = bytes[++at] as number)
        number = number * 10 + letter - 0x30
      const isWhole = letter === openTag
      while (letter !== openTag && at - valueAt < 40) letter = bytes[++at] as number
      if (at + 8 > bytes.length) return -2
      if (at === valueAt || !isCellEnd(bytes, at) || (isShared && !isWhole)) return -1
      this.column = column - 1
      this.isFormula = false
      if (isShared) this.keepCell(this.workbook.sharedTexts[number] ?? '')
      // A whole number that a double holds exactly, in a format that shows it as it is, needs no reading.
      else if (isWhole && at - valueAt < 16 && (this.workbook.formats[style]?.kind ?? 'plain') === 'plain')
        this.keepCell(String(number))
      else this.keepCell(this.numberText(String.fromCharCode(...bytes.subarray(valueAt, at)), style))
      return at + 8
    },
  }

  open(name: string, attributes: string): void {
    switch (name) {
      case 'row': {
        const said = Number(attributeOf(attributes, 'r') ?? 0)
        this.rowNumber = said >= 1 && said <= 1_048_576 ? said : this.rowNumber + 1
        this.column = -1
        this.row = null
        return
      }
      case 'c': {
        this.attributes = attributes
        const at = columnOf(attributeOf(attributes, 'r') ?? '')
        this.column = at ?? this.column + 1
        this.isInCell = true
        this.value = ''
        this.isFormula = false
        return
      }
      case 'v':
        if (this.isInCell) this.reading = 'value'
        return
      case 'f':
        this.isFormula = this.isInCell
        return
      case 't':
        if (this.isInCell && !this.isInReading) this.reading = 'text'
        return
      case 'rPh':
        this.isInReading = true
        return
      case 'mergeCell':
        this.noteMerge(attributeOf(attributes, 'ref') ?? '')
    }
  }

  close(name: string): void {
    switch (name) {
      case 'v':
      case 't':
        this.reading = null
        return
      case 'rPh':
        this.isInReading = false
        return
      case 'c':
        this.isInCell = false
        this.noteCell(attributeOf(this.attributes, 't'), Number(attributeOf(this.attributes, 's') ?? 0))
    }
  }

  text(text: string): void {
    if (this.reading !== null) this.value += text
  }

  private noteCell(type: string | null, style: number): void {
    if (this.value !== '' || this.isFormula) this.keepCell(this.textOf(type, style))
  }

  private keepCell(text: string): void {
    if (++this.cellCount > mostCells) throw new WorkbookFault({ kind: 'workbook-too-many', what: 'cells', most: mostCells })
    if (isBlank(text)) return
    if (this.column >= mostColumns) throw new WorkbookFault({ kind: 'workbook-too-many', what: 'columns', most: mostColumns })
    if (this.row === null) {
      if (this.rows.length >= mostRows) throw new WorkbookFault({ kind: 'workbook-too-many', what: 'rows', most: mostRows })
      this.row = { rowNumber: this.rowNumber, cells: [], fault: null, raw: null }
      this.rows.push(this.row)
    }
    fill(this.row.cells, this.column, text)
  }

  private textOf(type: string | null, style: number): string {
    const value = this.value
    if (this.isFormula) this.mark(value === '' ? { kind: 'formula-without-answer' } : { kind: 'formula' })
    switch (type) {
      case 's':
        return this.workbook.sharedTexts[Number(value)] ?? ''
      case 'inlineStr':
      case 'str':
        return unescapeUnits(value)
      case 'b':
        return value === '1' || value.toLowerCase() === 'true' ? 'yes' : 'no'
      case 'e':
        this.mark({ kind: 'error', text: value })
        return ''
      case 'd':
        this.mark({ kind: 'day' })
        return value.slice(0, 10)
      default:
        return this.numberText(value, style)
    }
  }

  private numberText(value: string, style: number): string {
    const number = Number(value)
    if (value.trim() === '' || !Number.isFinite(number)) return value
    const format = this.workbook.formats[style]
    switch (format?.kind) {
      case 'date': {
        const day = dayOfSerial(number, this.workbook.countsFrom1904)
        if (day === null) break
        this.mark({ kind: 'day' })
        return day
      }
      case 'percent':
        return `${plain(number * 100)}%`
      case 'figures':
        if (Number.isInteger(number)) return formatFigures(number, format.pattern)
    }
    return plain(number)
  }

  private mark(mark: CellMarkKind): void {
    this.marks.push({ rowNumber: this.rowNumber, column: this.column, ...mark })
  }

  private noteMerge(ref: string): void {
    const merge = rangeOf(ref)
    if (merge === null) return
    if (this.merges.length >= mostMerges) throw new WorkbookFault({ kind: 'workbook-too-many', what: 'cells', most: mostMerges })
    this.merges.push(merge)
  }
}

/** Without the last figures, in which a double is seldom what was typed: 0.1 + 0.2 is 0.3. */
const plain = (number: number): string => {
  const short = Number(number.toPrecision(15))
  const text = String(short)
  return text.includes('e') && Math.abs(short) < 1 ? short.toFixed(15).replace(/0+$/u, '') : text
}

/** `BC12` → 54, from 0; null when it says no column. */
function columnOf(ref: string): number | null {
  let column = 0
  for (let at = 0; at < ref.length; at++) {
    const letter = ref.charCodeAt(at) & 0xdf
    if (letter < 0x41 || letter > 0x5a || at > 3) break
    column = column * 26 + letter - 0x40
  }
  return column === 0 ? null : column - 1
}

function rangeOf(ref: string): Merge | null {
  const [, left, top, right, bottom] = /^\$?([A-Z]{1,3})\$?(\d{1,7}):\$?([A-Z]{1,3})\$?(\d{1,7})$/iu.exec(ref) ?? []
  if (left === undefined || right === undefined) return null
  return { top: Number(top), left: columnOf(left) ?? 0, bottom: Number(bottom), right: columnOf(right) ?? 0 }
}

async function readNotes(workbook: Workbook, part: string): Promise<CellMark[]> {
  const { zip } = workbook
  const relations = await relationsOf(zip, part)
  const byCell = new Map<string, string[]>()
  const note = (ref: string, text: string, isReply = true) => {
    const tidy = text.trim()
    if (tidy === '') return
    if (byCell.size >= mostNotes) throw new WorkbookFault({ kind: 'workbook-too-many', what: 'cells', most: mostNotes })
    byCell.set(ref, isReply ? [...(byCell.get(ref) ?? []), tidy] : [tidy])
  }
  for (const { type, target } of relations) {
    if (type !== 'comments') continue
    const authors: string[] = []
    let isInAuthor = false
    const rich = new RichText('comment', (text, attributes) =>
      note(attributeOf(attributes, 'ref') ?? '', withoutAuthor(text, authors)),
    )
    await readXml(zip, target, {
      open: (name, attributes) => {
        if (name === 'author') isInAuthor = true
        rich.open(name, attributes)
      },
      close: (name) => {
        if (name === 'author') isInAuthor = false
        rich.close(name)
      },
      text: (text) => {
        if (isInAuthor) authors.push(text)
        rich.text(text)
      },
    })
  }
  // A conversation on a cell stands as a plain note too, behind a line about the program that is needed for it: its own text counts.
  const talked = new Set<string>()
  for (const { type, target } of relations) {
    if (type !== 'threadedComment') continue
    let ref = ''
    let text = ''
    let isInText = false
    await readXml(zip, target, {
      open: (name, attributes) => {
        if (name === 'threadedComment') [ref, text] = [attributeOf(attributes, 'ref') ?? '', '']
        isInText = name === 'text'
      },
      close: (name) => {
        if (name === 'text') isInText = false
        if (name !== 'threadedComment') return
        note(ref, text, talked.has(ref))
        talked.add(ref)
      },
      text: (more) => {
        if (isInText) text += more
      },
    })
  }
  return [...byCell].flatMap(([ref, texts]): CellMark[] => {
    const column = columnOf(ref)
    const rowNumber = Number(/\d+$/.exec(ref)?.[0] ?? 0)
    return column === null || rowNumber === 0 ? [] : [{ rowNumber, column, kind: 'note', text: texts.join(' / ') }]
  })
}

/** Programs put who wrote a note into its first line. */
function withoutAuthor(text: string, authors: readonly string[]): string {
  const [first = '', ...rest] = text.split(/\r?\n/u)
  return authors.some((author) => first.trim() === `${author.trim()}:`) ? rest.join('\n') : text
}
