import { hexToLab } from '#lib/colour/convert'
import type { Lab } from '#lib/colour/lab'
import { parseClothLength } from '#lib/quantity/cloth-length'
import { parseDate } from '#lib/quantity/date'
import { parseNumber, parseWholeNumber } from '#lib/quantity/number'
import { textKey } from '#lib/quantity/text-key'
import { parseThreadLength } from '#lib/quantity/thread-length'
import { likelyCodes } from './date-codes'
import { unescapeCell } from './escape-csv'
import type { ColumnUnit } from './fields'
import type { Mapping } from './mapping'
import type { TableRow } from './read-table'
import type { RowError, RowErrorKind, RowWarning, RowWarningKind } from './row-error'

const longestNote = 4_000
const longestText = 300

const yes = new Set(['yes', 'y', 'true', '1', 'x', 'ja', 'j', 'oui', 'o', 'vrai', 'wahr', '✓', '✔'])
const no = new Set(['no', 'n', 'false', '0', 'nein', 'non', 'faux', 'falsch', '-'])

/**
 * Reads the cells of one row by field name, and gathers what is wrong with them. Every method returns null (or an empty list) both for a
 * blank cell and for one it has put an error on; a row with errors makes no draft, so the two need not be told apart.
 */
export class RowReader {
  readonly errors: RowError[] = []
  readonly warnings: RowWarning[] = []

  constructor(
    readonly row: TableRow,
    private readonly mapping: Mapping,
    private readonly headers: readonly string[],
  ) {}

  has(field: string): boolean {
    return (this.mapping.columns[field] ?? null) !== null
  }

  refuse(field: string | null, kind: RowErrorKind, raw: string, accepted?: readonly string[]): null {
    this.errors.push({
      rowNumber: this.row.rowNumber,
      field,
      column: this.columnOf(field),
      kind,
      raw,
      ...(accepted && { accepted: [...accepted] }),
    })
    return null
  }

  warn(field: string | null, kind: RowWarningKind, raw: string, accepted?: readonly string[]): void {
    this.warnings.push({
      rowNumber: this.row.rowNumber,
      field,
      column: this.columnOf(field),
      kind,
      raw,
      ...(accepted && { accepted: [...accepted] }),
    })
  }

  /** The cell as text, white space tidied, or what the mapping says for blank ones; null when there is neither. */
  text(field: string, longest = longestText): string | null {
    const cell = this.cell(field)
    const text = cell === '' ? (this.mapping.defaults[field] ?? '').trim() : cell
    if (text === '') return null
    if (text.length > longest) return this.refuse(field, 'too-long', text.slice(0, longest), [String(longest)])
    if (/^[=@]/.test(text)) this.warn(field, 'cell-looks-like-formula', text)
    return text
  }

  /** The row's note, and the notes that hang on its cells. */
  note(field = 'note'): string | null {
    const text = this.text(field, longestNote)
    const hung = this.notesOnCells()
    if (hung.length === 0) return text
    return [text, ...hung]
      .filter((one) => one !== null)
      .join('\n')
      .slice(0, longestNote)
  }

  private notesOnCells(): string[] {
    return (this.row.marks ?? []).flatMap((mark) => {
      if (mark.kind !== 'note') return []
      const text = tidy(mark.text)
      const field = this.fieldOf(mark.column)
      const header = this.headers[mark.column]
      // Of the cell that says what the row is about, a note is one of the whole row.
      return field === null || header === undefined || isNaming.has(field) ? [text] : [`${header}: ${text}`]
    })
  }

  private fieldOf(column: number): string | null {
    return Object.keys(this.mapping.columns).find((field) => this.mapping.columns[field] === column) ?? null
  }

  /** Warn of what is known of the cells that were read beyond their text. Formulas are told once for all rows, by the caller. */
  warnOfMarks(keepsNotes: boolean): void {
    for (const mark of this.row.marks ?? []) {
      if (mark.kind === 'note') {
        if (!keepsNotes) this.warn(null, 'note-not-kept', tidy(mark.text).slice(0, longestText))
        continue
      }
      const field = this.fieldOf(mark.column)
      if (field === null) continue
      const text = this.row.cells[mark.column] ?? ''
      if (mark.kind === 'error') this.warn(field, 'cell-shows-error', mark.text)
      else if (mark.kind === 'formula-without-answer') this.warn(field, 'formula-without-answer', '')
      // Codes say it themselves, and days are what they should be.
      else if (mark.kind === 'day' && field !== 'code' && !isDay.has(field))
        this.warn(field, 'text-became-day', text, likelyCodes(text))
    }
  }

  required(field: string): string {
    const text = this.text(field)
    if (text === null && !this.errors.some((error) => error.field === field)) this.refuse(field, 'missing', '')
    return text ?? ''
  }

  /** Several values in one cell, parted by semicolons; each once. */
  texts(field: string): string[] {
    const parts = (this.text(field, longestNote) ?? '')
      .split(';')
      .map((part) => part.trim())
      .filter((part) => part !== '')
    const seen = new Set<string>()
    return parts.filter((part) => !seen.has(textKey(part)) && seen.add(textKey(part)))
  }

  yesNo(field: string): boolean | null {
    const text = this.text(field)
    if (text === null) return null
    const key = textKey(text)
    if (yes.has(key)) return true
    if (no.has(key)) return false
    return this.refuse(field, 'not-yes-or-no', text, ['yes', 'no'])
  }

  /** One of the words, or another word that means one of them. */
  word<Word extends string>(field: string, accepted: readonly Word[], alsoMeans: Record<string, Word>): Word | null {
    const text = this.text(field)
    if (text === null) return null
    const key = textKey(text).replace(/[-_]/g, ' ')
    const meant = accepted.find((word) => word === key) ?? (Object.hasOwn(alsoMeans, key) ? (alsoMeans[key] as Word) : null)
    return meant ?? this.refuse(field, 'unknown-word', text, accepted)
  }

  whole(field: string, { least = 0, most = 1_000_000 }: { least?: number; most?: number } = {}): number | null {
    const text = this.text(field)
    if (text === null) return null
    const value = parseWholeNumber(text)
    if (value === null) return this.refuse(field, 'not-a-whole-number', text)
    return value < least || value > most ? this.refuse(field, 'out-of-range', text, [String(least), String(most)]) : value
  }

  number(field: string, { least, most }: { least: number; most: number }): number | null {
    const text = this.text(field)
    if (text === null) return null
    const value = parseNumber(this.decimal(text))
    if (value === null) return this.refuse(field, 'not-a-number', text)
    return value < least || value > most ? this.refuse(field, 'out-of-range', text, [String(least), String(most)]) : value
  }

  /** Where this file's comma is a decimal mark, `1,240` is one and a bit. */
  decimal(text: string): string {
    return this.mapping.decimalComma ? text.replace(/(?<![\d.,])(\d+),(\d{3})(?![\d.,])/gu, '$1.$2') : text
  }

  unitOf(field: string): ColumnUnit | null {
    return this.mapping.units[field] ?? null
  }

  /** The cell with its column's unit, when it has none of its own. */
  withUnit(field: string, text: string): string {
    const unit = this.mapping.units[field]
    return unit === undefined || unit === 'stitches' || hasUnit(text) ? text : `${text} ${unit}`
  }

  threadTenths(field: string): number | null {
    const text = this.text(field)
    if (text === null) return null
    const tenths = parseThreadLength(this.withUnit(field, this.decimal(text)), 'm')
    if (tenths === null) return this.refuse(field, 'not-a-thread-length', text, ['8 m', '5 yd'])
    return tenths === 0 || tenths > mostThreadTenths ? this.refuse(field, 'out-of-range', text) : tenths
  }

  clothUm(field: string): number | null {
    const text = this.text(field)
    if (text === null) return null
    const um = parseClothLength(this.withUnit(field, this.decimal(text)), 'in')
    if (um === null) return this.refuse(field, 'not-a-cloth-length', text, ['18 in', '45 cm', '12½'])
    return um === 0 || um > mostClothUm ? this.refuse(field, 'out-of-range', text) : um
  }

  date(field: string): string | null {
    const text = this.text(field)
    if (text === null) return null
    const date = parseDate(text, { monthFirst: this.mapping.monthFirst ?? false })
    if (date === null) return this.refuse(field, 'not-a-date', text, ['2026-03-01', '1.3.2026'])
    if (date.isAmbiguous) this.warn(field, 'date-could-be-two', text, [date.iso])
    return date.iso
  }

  /** The colour by its L, a and b, all three or none, else by #rrggbb where the kind has a field for it. */
  lab(hexField: string | null): Lab | null {
    const L = this.number('L', { least: 0, most: 100 })
    const a = this.number('a', { least: -128, most: 128 })
    const b = this.number('b', { least: -128, most: 128 })
    if (L !== null && a !== null && b !== null) return { L, a, b }
    const given = ['L', 'a', 'b'].filter((field) => this.cell(field) !== '')
    if (given.length > 0 && given.length < 3)
      return this.refuse(['L', 'a', 'b'].find((f) => !given.includes(f)) as string, 'half-a-colour', '')
    const hex = hexField === null ? null : this.text(hexField)
    return hex === null ? null : (hexToLab(hex) ?? this.refuse(hexField, 'not-a-colour', hex, ['#a1b2c3']))
  }

  /**
   * A code, exact as written. Spreadsheets turn codes such as 3-12 into dates and long ones into powers of ten; such a code is kept,
   * and pointed out.
   */
  code(field: string, code: string): string {
    if (looksLikeDate(code)) this.warn(field, 'code-looks-like-date', code, likelyCodes(code))
    if (/^\d(?:[.,]\d+)?E[+-]?\d+$/iu.test(code)) this.warn(field, 'code-looks-like-power', code)
    return code
  }

  private cell(field: string): string {
    const index = this.mapping.columns[field] ?? null
    if (index === null) return ''
    return tidy(unescapeCell(this.row.cells[index] ?? ''))
  }

  private columnOf(field: string | null): string | null {
    const index = field === null ? null : (this.mapping.columns[field] ?? null)
    return index === null ? null : (this.headers[index] ?? null)
  }
}

/** A tab or line end inside a cell is white space like any other; other control characters are nothing at all. */
function tidy(raw: string): string {
  if (/^[!-~]*(?: [!-~]+)*$/.test(raw)) return raw.trimStart()
  return raw
    .replace(/\s+/gu, ' ')
    .replace(/[\p{Cc}\u200b]/gu, '')
    .trim()
}

/** Fields that say what a row is about. */
const isNaming = new Set(['code', 'chart', 'design', 'label', 'cloth'])
const isDay = new Set(['bought', 'started', 'finished', 'due'])

/** Any letter or inch mark but the x or "by" between two sides. */
const hasUnit = (text: string): boolean => /\p{L}|["”″']/u.test(text.replace(/\b(?:x|by)\b|(?<=\d)x(?=\d)/giu, ''))

/** A kilometre of thread on one put-up, ten metres of cloth: beyond what is sold, so a slip of the unit. */
const mostThreadTenths = 10_000_000
const mostClothUm = 100_000_000

const months = 'jan|feb|mar|apr|may|jun|jul|aug|sep|sept|oct|nov|dec|mai|juin|juil|okt|dez|mrz'
const dayAndMonth = new RegExp(`^\\d{1,2}[-./ ](?:${months})[a-z]*\\.?(?:[-./ ]\\d{2,4})?$`, 'iu')
const monthAndYear = new RegExp(`^(?:${months})[a-z]*\\.?[-./ ]\\d{1,4}$`, 'iu')

function looksLikeDate(code: string): boolean {
  if (code.length < 5) return false
  return (
    dayAndMonth.test(code) ||
    monthAndYear.test(code) ||
    /^\d{1,2}[./-]\d{1,2}[./-](?:\d{4}|\d{2})$/.test(code) ||
    /^\d{4}-\d{2}-\d{2}(?:[ T].*)?$/.test(code)
  )
}
