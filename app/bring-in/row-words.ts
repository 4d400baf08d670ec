import { formatDate } from '#language/day'
import { say } from '#language/say'
import type { ImportKind } from '#lib/importing/fields'
import type { SheetLayout } from '#lib/importing/layouts'
import type { RowError } from '#lib/importing/row-error'
import { cellName, leastCellNumber } from '#lib/importing/row-names'
import { listed } from '#words/amounts'
import { midSentence } from '#words/capital'
import { fieldLabel, helpOf } from './words'

const longestQuote = 80

export const quoted = (raw: string): string => `“${raw.length > longestQuote ? `${raw.slice(0, longestQuote)}…` : raw}”`

/** "a, b or c"; of many the first eight. */
export function either(items: readonly string[]): string {
  const shown = items.filter((item) => item !== '').slice(0, 8)
  return shown.length < 2
    ? (shown[0] ?? '')
    : say('{shown} or {shown2}', { shown: shown.slice(0, -1).join(', '), shown2: shown.at(-1) })
}

const accepts = (accepted: readonly string[] | undefined, usual: string): string =>
  say('{either} would be accepted.', { either: either(accepted ?? []) || usual })

const among = (accepted: readonly string[] | undefined): string => {
  const words = either(accepted ?? [])
  return words === '' ? '' : `: ${words}`
}

const perhaps = (near: readonly string[] | undefined, otherwise: string): string => {
  const words = either(near ?? [])
  return words === '' ? otherwise : say('Is it {words}?', { words })
}

export const capital = (sentence: string): string => sentence.charAt(0).toUpperCase() + sentence.slice(1)

/** "Row 4", "Rows 4, 5 and 9", "Rows 4, 5, 6 and 120 more"; "Cells B7 and C2" of a sheet whose cells are drawers. */
export function describeRows(rowNumbers: readonly number[], layout: SheetLayout = 'rows'): string {
  const shown = rowNumbers.slice(0, 6).map((number) => (layout === 'rows' ? String(number) : placeName(number)))
  const more = rowNumbers.length - shown.length
  const items = more > 0 ? [...shown, say('{more, number} more', { more })] : shown
  if (layout !== 'rows')
    return say('{rowNumbers, plural, one {At} other {At cells}} {items}', { rowNumbers: rowNumbers.length, items: listed(items) })
  return say('{rowNumbers, plural, one {Row} other {Rows}} {items}', { rowNumbers: rowNumbers.length, items: listed(items) })
}

/** What is said of a whole row of drawers goes by the row's own number, which is far below that of any cell. */
const placeName = (number: number): string => (number < leastCellNumber ? say('row {number}', { number }) : cellName(number))

/** `Count (column “Ct”)`: the field, and the file's own word for it where that is another. */
export function fieldWords({ field, column }: { field: string | null; column: string | null }, kind: ImportKind): string | null {
  if (field === null) return column
  const label = fieldLabel(kind, field)
  return column === null || column.toLowerCase() === label.toLowerCase()
    ? label
    : say('{label} (column “{column}”)', { label, column })
}

/** Field, what was written and what would be accepted; the rows it is said of stand beside it (`describeRows`). */
export function describeFault(error: RowError, kind: ImportKind): string {
  const field = fieldWords(error, kind)
  const words = faultWords(error, kind)
  return field === null ? capital(words) : `${field}: ${words}`
}

function faultWords(error: RowError, kind: ImportKind): string {
  const { raw, accepted } = error
  const written = quoted(raw)
  switch (error.kind) {
    case 'unclosed-quote':
      return say('a quotation mark opens and is never closed: {written}. Close it, or take it out.', { written })
    case 'stray-quote':
      return say('a quotation mark stands where none belongs: {written}. Write it twice, or take it out.', { written })
    case 'more-cells-than-headers':
      return say(
        'there are more cells than headings: {written}. A text with the separator in it has to stand in quotation marks.',
        { written },
      )
    case 'cell-too-long':
      return say('a cell is too long to be read: {written}. Shorten it.', { written })
    case 'missing':
      return error.column === null
        ? say('the file has no column for it, and it is needed. Choose a column, or give one for every row.')
        : say('the cell is blank, and it is needed. {helpOf}', { helpOf: helpOf(kind, error.field) })
    case 'not-a-number':
      return say('{written} is not a number. {accepts}', { written, accepts: accepts(accepted, say('12, 12.5 or 1/2')) })
    case 'not-a-whole-number':
      return say('{written} is not a whole number. {accepts}', { written, accepts: accepts(accepted, '12') })
    case 'out-of-range':
      return accepted?.length === 2
        ? say('{written} is out of range. Anything from {accepted} to {accepted2} would be accepted.', {
            written,
            accepted: accepted[0],
            accepted2: accepted[1],
          })
        : say(
            '{written} is too little or too much to be right. Another unit may have been meant; 8 m or 18 in, with the unit, would be accepted.',
            { written },
          )
    case 'unknown-word':
      return say('{written} is not a word known here. {accepts}', {
        written,
        accepts: accepts(accepted, helpOf(kind, error.field)),
      })
    case 'not-yes-or-no':
      return say('{written} is neither yes nor no. {accepts}', { written, accepts: accepts(accepted, say('yes or no')) })
    case 'not-a-thread-length':
      return say('{written} is not a length of thread. {accepts}', { written, accepts: accepts(accepted, say('8 m or 5 yd')) })
    case 'not-a-cloth-length':
      return say('{written} is not a length of cloth. {accepts}', { written, accepts: accepts(accepted, say('18 in or 45 cm')) })
    case 'not-a-size':
      return say('{written} is not a size. {accepts}', { written, accepts: accepts(accepted, '140 x 98') })
    case 'not-a-count':
      return say('{written} is not a count. {accepts}', { written, accepts: accepts(accepted, '28') })
    case 'not-a-part':
      return say('{written} is not a part of a skein. {accepts}', {
        written,
        accepts: accepts(accepted, say('2.5 m, 1/2 or some')),
      })
    case 'not-a-date':
      return say('{written} is not a date. {accepts}', { written, accepts: accepts(accepted, '2026-03-01') })
    case 'not-a-price':
      return say('{written} is not a price. {accepts}', { written, accepts: accepts(accepted, say('3.60')) })
    case 'not-a-colour':
      return say('{written} is not a colour. {accepts}', { written, accepts: accepts(accepted, '#a1b2c3') })
    case 'not-a-thread':
      return say('{written} does not name a thread. {accepts}', {
        written,
        accepts: accepts(accepted, say('Maker | Line | Code')),
      })
    case 'too-long':
      return say('the text is longer than {accepted} letters: {written}. Shorten it.', {
        accepted: accepted?.[0] ?? '300',
        written,
      })
    case 'half-a-size':
      return say('only one of width and height is given. Give both, or neither.')
    case 'half-a-colour':
      return say('L, a and b belong together, and one of them is blank. Give all three, or none.')
    case 'mixed-units':
      return say('{written} is in another unit than the width. Give both in stitches, or both in inches or centimetres.', {
        written,
      })
    case 'blend-parts-differ':
      return accepted?.length
        ? say(
            '{written} has another number of parts than the code, which has {accepted}. Give one for all, or one for each, parted by +.',
            { written, accepted: accepted[0] },
          )
        : say('{written} has a blank part. Give each thread of the blend its code, parted by +.', { written })
    case 'part-given-twice':
      return say('the part skein is given twice, {written}: as a fraction of the skeins and on its own. Keep one.', { written })
    case 'dates-out-of-order':
      return say('{written} is before the day it was begun, {date}. A later day, or none, would be accepted.', {
        written,
        date: dateWords(accepted?.[0]),
      })
    case 'unknown-design':
      return say('{written} is not among the charts. {perhaps}', {
        written,
        perhaps: perhaps(accepted, say('Bring in its chart first.')),
      })
    case 'which-design':
      if (error.field === 'design')
        return say('{written} holds several designs{among}. Say which under Design.', { written, among: among(accepted) })
      return say(
        '{written} is in more than one chart{among}. {isLists, select, yes {Say whose under Designer.} other {Say which under Chart; if they bear one title, rename one of them here first.}}',
        { written, among: among(accepted), isLists: kind === 'lists' },
      )
    case 'which-chart':
      return say('{written} could be more than one chart{among}. Say which under Kind and Designer.', {
        written,
        among: among(accepted),
      })
    case 'unknown-list':
      return say('the design has no thread list called {written}. {perhaps}', {
        written,
        perhaps: perhaps(accepted, say('Bring in its thread list first.')),
      })
    case 'unknown-cloth':
      return say('no piece of cloth of this owner is labelled {written}. {perhaps}', {
        written,
        perhaps: perhaps(accepted, say('Bring in the cloth first, or leave the cell blank.')),
      })
    case 'which-line':
      return say('{written} is a code in more than one line of this maker{among}. Say which under Line.', {
        written,
        among: among(accepted),
      })
    case 'inside-itself':
      return say('put inside {written}, the place would stand inside itself. Another place, or none, would be accepted.', {
        written,
      })
    case 'repeated-label':
      return accepted?.length
        ? say('the label {written} stands on {midSentence} too, and the rows differ. Two pieces cannot share one label.', {
            written,
            midSentence: midSentence(describeRows(accepted.map(Number))),
          })
        : say('the label {written} is on another piece already. Two pieces cannot share one label.', { written })
  }
}

export const dateWords = (iso: string | undefined): string =>
  iso !== undefined && /^\d{4}-\d{2}-\d{2}$/.test(iso) ? formatDate(iso) : (iso ?? '')
