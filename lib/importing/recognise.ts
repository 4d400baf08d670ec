import { hexToLab } from '#lib/colour/convert'
import { parseClothSize } from '#lib/quantity/cloth-length'
import { parseCount } from '#lib/quantity/count'
import { parseDate } from '#lib/quantity/date'
import { parseNumber } from '#lib/quantity/number'
import { textKey } from '#lib/quantity/text-key'
import { notionKindOf } from './check-notions'
import { type ColumnUnit, type Field, fieldsOf, type ImportKind, importKinds, isFieldMissing } from './fields'
import { type HeaderWords, headerWords } from './header-words'
import type { Mapping } from './mapping'
import { type HeaderParts, readHeader } from './read-header'

type Rows = readonly (readonly string[])[]

/** One header taken for one field: how well its words say so, from 0 to 1. */
type Match = { field: string; header: number; score: number; unit: ColumnUnit | null }

const sureScore = 1
const typoScore = 0.75
const maybeScore = 0.55
const partScore = 0.45
/** Values of a column that look the part of a field, for a header that only may mean it. Below this share it does not. */
const leastShare = 0.5

/**
 * Which kind of file it is, judged by how many of its headers mean a field of the kind, a missing required field weighing most.
 *
 * @param sampleRows  Cells of some rows, to judge headers that could mean two things (`Colour`: a code, a name or #rrggbb).
 * @returns           `kind` null when no kind has a required field among the headers; confidence from 0 to 1, near 0 when two are alike.
 */
export function recogniseKind(headers: readonly string[], sampleRows: Rows): { kind: ImportKind | null; confidence: number } {
  const parts = headers.map(readHeader)
  const filledHeaders = Math.max(1, parts.filter((part) => part.key !== '').length)
  const scored = importKinds
    .map((kind) => {
      const byField = matchFields(kind, parts, sampleRows)
      const required = Object.entries<Field>(fieldsOf[kind]).filter(([, field]) => field.isRequired)
      const missing = required.filter(([name]) => isFieldMissing(kind, name, (other) => byField.has(other))).length
      const explained = [...byField.values()].reduce((sum, match) => sum + match.score, 0) / filledHeaders
      const lacking = kind === 'notions' && !soundLikeNotions(byField, sampleRows) ? 1 : 0
      const complete = 1 - (missing + lacking) / (required.length + (kind === 'notions' ? 1 : 0))
      return { kind, score: complete === 0 ? 0 : explained * (0.25 + 0.75 * complete) }
    })
    .sort((left, right) => right.score - left.score || importKinds.indexOf(left.kind) - importKinds.indexOf(right.kind))
  const [best, second] = scored
  if (!best || best.score < 0.1) return { kind: null, confidence: 0 }
  return {
    kind: best.kind,
    confidence: Math.min(1, best.score) * Math.min(1, (2 * (best.score - (second?.score ?? 0))) / best.score),
  }
}

/** A kind and a name are headings of anything; hoops and needles in their cells are not. Without cells the heading of a kind has to do. */
function soundLikeNotions(byField: ReadonlyMap<string, Match>, rows: Rows): boolean {
  const cells = (field: string) => column(rows, byField.get(field)?.header ?? null)
  const kinds = cells('kind')
  if (kinds.length > 0 && share(kinds, (kind) => notionKindOf(kind) !== null) >= leastShare) return true
  const names = cells('name')
  if (names.length === 0) return byField.has('kind')
  return share(names, (name) => notionKindOf(name) !== null) >= leastShare
}

/**
 * Take each header for the field its words mean, each field at most once, with the unit the header names (`Width (cm)`).
 *
 * `defaults.owner` is left to the caller: whose goods a file lists is for the person to say.
 */
export function suggestMapping(kind: ImportKind, headers: readonly string[], sampleRows: Rows): Mapping {
  const byField = matchFields(kind, headers.map(readHeader), sampleRows)

  const fields = Object.entries<Field>(fieldsOf[kind])
  const columns: Mapping['columns'] = {}
  const units: Mapping['units'] = {}
  for (const [name, field] of fields) {
    const match = byField.get(name)
    columns[name] = match?.header ?? null
    const [usual] = field.units
    if (match === undefined || usual === undefined) continue
    units[name] = match.unit ?? (name === 'count' ? usualCount(usual, column(sampleRows, match.header)) : usual)
  }
  if (kind === 'cloth') setClothUnit(units, byField, sampleRows)
  const mapping: Mapping = { kind, columns, units, defaults: {} }
  const dates = ['bought', 'started', 'finished', 'due'].flatMap((name) => column(sampleRows, columns[name] ?? null))
  if (dates.some((date) => monthFirstOnly(date)) && !dates.some((date) => dayFirstOnly(date))) mapping.monthFirst = true
  if (hasDecimalComma(sampleRows)) mapping.decimalComma = true
  return mapping
}

/**
 * A file that only says `Design`, or only `Title`, has one title for both the chart and the design in it; and colours that have names
 * and no codes, as hand-dyed ones do, are known by their names.
 */
function matchFields(kind: ImportKind, parts: readonly HeaderParts[], rows: Rows): Map<string, Match> {
  const byField = new Map(matchHeaders(kind, parts, rows).map((match) => [match.field, match]))
  const lend = (from: string, to: string) => {
    const match = byField.get(from)
    if (match === undefined || byField.has(to)) return
    byField.set(to, { ...match, field: to })
    byField.delete(from)
  }
  if (kind === 'charts' || kind === 'lists') lend('design', 'chart')
  if (kind === 'threads' || kind === 'lists') lend('name', 'code')
  return byField
}

function matchHeaders(kind: ImportKind, parts: readonly HeaderParts[], rows: Rows): Match[] {
  const candidates: (Match & { fieldOrder: number })[] = []
  const fields = Object.entries<HeaderWords>(headerWords[kind])
  parts.forEach((part, header) => {
    if (part.key === '') return
    const values = column(rows, header)
    fields.forEach(([field, words], fieldOrder) => {
      const units = (fieldsOf[kind] as Record<string, Field>)[field]?.units ?? []
      const whole = wordScore(part.key, words)
      // "Stands in for" does not end in a unit, and "Kept in" is not a width: a unit is one only where the field can have it.
      const unit = part.unit !== null && units.includes(part.unit) ? part.unit : null
      const beforeUnit = unit === null || part.keyBeforeUnit === null ? 0 : wordScore(part.keyBeforeUnit, words)
      const said = Math.max(whole, beforeUnit)
      if (said === 0) return
      const share = looks[field]?.(values) ?? null
      if (share !== null && values.length > 0 && share < leastShare && said < sureScore) return
      const score = share === null || said === sureScore ? said : said + 0.3 * share
      candidates.push({ field, header, score: Math.min(score, sureScore), unit: beforeUnit >= whole ? unit : null, fieldOrder })
    })
  })
  candidates.sort((left, right) => right.score - left.score || left.fieldOrder - right.fieldOrder || left.header - right.header)
  const taken = { fields: new Set<string>(), headers: new Set<number>() }
  const matches: Match[] = []
  for (const { fieldOrder: _, ...match } of candidates) {
    if (taken.fields.has(match.field) || taken.headers.has(match.header)) continue
    taken.fields.add(match.field)
    taken.headers.add(match.header)
    matches.push(match)
  }
  return matches
}

function wordScore(key: string, { sure, maybe }: HeaderWords): number {
  if (sure.includes(key)) return sureScore
  if (sure.some((word) => word.length >= 5 && isOneSlipFrom(key, word))) return typoScore
  if (maybe.includes(key)) return maybeScore
  const said = key.split(' ')
  const inPart = sure.some((word) => word.length > 2 && word.split(' ').every((one) => said.includes(one)))
  return inPart ? partScore / (said.length - 1 || 1) + 0.05 : 0
}

/** One letter more, fewer or other, or two neighbours swapped. */
function isOneSlipFrom(left: string, right: string): boolean {
  if (left === right || Math.abs(left.length - right.length) > 1) return false
  let start = 0
  while (start < left.length && left[start] === right[start]) start++
  let end = 0
  while (end < Math.min(left.length, right.length) - start && left.at(-1 - end) === right.at(-1 - end)) end++
  const [a, b] = [left.slice(start, left.length - end), right.slice(start, right.length - end)]
  return (a.length <= 1 && b.length <= 1) || (a.length === 2 && a[0] === b[1] && a[1] === b[0])
}

function column(rows: Rows, header: number | null): string[] {
  if (header === null) return []
  return rows.map((cells) => (cells[header] ?? '').trim()).filter((cell) => cell !== '')
}

const share = (values: readonly string[], isOne: (value: string) => boolean): number =>
  values.length === 0 ? 0 : values.filter(isOne).length / values.length

const isHex = (value: string): boolean => /^#?[0-9a-f]{6}$/iu.test(value) && hexToLab(value) !== null
/** Codes as printed: mostly figures, perhaps letters about them, no spaces; not a hex colour. */
const isCode = (value: string): boolean =>
  /^[\p{L}]{0,3}[-.]?\d[\d\p{L}./-]*(?:\+[\p{L}\d./-]+)*$/u.test(value) && !(value.startsWith('#') && isHex(value))
const isWords = (value: string): boolean => /\p{L}{2}/u.test(value) && !isHex(value) && !/^\d/.test(value)
const isWhole = (value: string): boolean => /^\d{1,4}(?:[.,]\d{1,2})?$/.test(value)
/** One of these words, parted by strokes, however it is written. */
const isOneOf = (words: string) => {
  const known = new Set(words.split('|'))
  return (value: string): boolean => known.has(textKey(value).replace(/[-_]/g, ' '))
}
const isDate = (value: string): boolean => parseDate(value, { monthFirst: false }) !== null

/** What the values of a field look like; only asked where the words of a header leave doubt. */
const looks: Record<string, (values: string[]) => number> = {
  code: (values) => share(values, isCode),
  colour: (values) => share(values, isHex),
  name: (values) => share(values, isWords),
  cloth: (values) => share(values, isWords),
  designer: (values) => share(values, isWords),
  maker: (values) => share(values, isWords),
  line: (values) => share(values, isWords),
  chart: (values) => share(values, isWords),
  design: (values) => share(values, isWords),
  skeins: (values) => share(values, (value) => isWhole(value) || parseNumber(value) !== null),
  full: (values) => share(values, (value) => parseNumber(value) !== null),
  strands: (values) => share(values, (value) => /^[\d+]{1,5}$/.test(value)),
  copies: (values) => share(values, isWhole),
  count: (values) => share(values, (value) => parseCount(value) !== null),
  size: (values) => share(values, (value) => parseClothSize(value.replace(/[a-z]+\s*$/iu, ''), 'in') !== null),
  countKnown: (values) => share(values, isOneOf('counted|measured|label|guess|guessed|yes|no|ruler|band')),
  dyeing: (values) => share(values, isOneOf('plain|dyed|hand dyed|hand dye|solid|undyed|raw|bleached|mottled|yes|no|none')),
  washed: (values) => share(values, isOneOf('yes|no|y|n|washed|new|never|unknown|unwashed|pre washed|do not wash')),
  oneWay: (values) => share(values, isOneOf('count|dye|grid|stripe|stripes|band|slubs|drawn work|nap|sheen')),
  width: (values) => share(values, (value) => /^[\d.,½¼¾ /]+\s*\p{L}*["”]?$/u.test(value)),
  height: (values) => share(values, (value) => /^[\d.,½¼¾ /]+\s*\p{L}*["”]?$/u.test(value)),
  putUp: (values) => share(values, (value) => /^[\d.,]+\s*(?:m|yd|yds|yards?|met\w+|cm)?\.?$/iu.test(value)),
  bought: (values) => share(values, isDate),
  started: (values) => share(values, isDate),
  finished: (values) => share(values, isDate),
  due: (values) => share(values, isDate),
  price: (values) => share(values, (value) => /\d/.test(value)),
  hours: (values) => share(values, (value) => parseNumber(value) !== null),
  stitchesDone: (values) => share(values, (value) => parseNumber(value) !== null),
}

/** Over 60 a bare figure is not inches of cloth, as a bolt is about 60 inches wide; nor threads to the inch, of cloth one can count. */
const mostInchesOrPerInch = 60
const bareFigures = (values: readonly string[]): number[] =>
  values
    .filter((value) => /\d/.test(value) && !/(?!x)\p{L}|["”″]/iu.test(value))
    .flatMap((value) => value.match(/\d+(?:[.,]\d+)?/gu) ?? [])
    .map((figure) => Number(figure.replace(',', '.')))

function usualCount(usual: ColumnUnit, values: readonly string[]): ColumnUnit {
  const counts = bareFigures(values)
  return counts.length > 0 && counts.every((count) => count > mostInchesOrPerInch) ? 'per 10 cm' : usual
}

/** Width and height without a unit in their headers are in the same one: that of the other column, else what the figures suggest. */
function setClothUnit(units: Mapping['units'], byField: Map<string, Match>, rows: Rows): void {
  const sides = ['width', 'height', 'size'].flatMap((name) => byField.get(name) ?? [])
  const said = sides.find((side) => side.unit !== null)?.unit
  const isLarge = sides.some(
    (side) => side.unit === null && bareFigures(column(rows, side.header)).some((one) => one > mostInchesOrPerInch),
  )
  for (const side of sides) units[side.field] = side.unit ?? said ?? (isLarge ? 'cm' : 'in')
}

const strokes = /^(\d{1,2})[-/](\d{1,2})[-/](?:\d{4}|\d{2})$/
const monthFirstOnly = (date: string): boolean => Number(strokes.exec(date)?.[2]) > 12
const dayFirstOnly = (date: string): boolean => Number(strokes.exec(date)?.[1]) > 12

/** Some cell has one or two figures after a comma, and none has them after a dot: the comma is the decimal mark of this file. */
function hasDecimalComma(rows: Rows): boolean {
  let commas = 0
  let dots = 0
  for (const cells of rows) {
    for (const cell of cells) {
      if (/^-?\d+,\d{1,2}(?:\s*\p{L}{0,3})?$/u.test(cell.trim())) commas++
      else if (/^-?\d+\.\d{1,2}(?:\s*\p{L}{0,3})?$/u.test(cell.trim())) dots++
    }
  }
  return commas > 0 && dots === 0
}
