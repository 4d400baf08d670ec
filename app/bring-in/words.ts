import { formatDate } from '#language/day'
import { numberText } from '#language/figures'
import { say, sayings } from '#language/say'
import type { ImportRefused, UndoDone } from '#lib/db/importing/import-service'
import { type Field, fieldsOf, type ImportKind, importKinds } from '#lib/importing/fields'
import type { ImportPlan } from '#lib/importing/import-plan'
import type { SheetLayout } from '#lib/importing/layouts'
import type { RowError, RowWarning } from '#lib/importing/row-error'
import { cellName, leastCellNumber } from '#lib/importing/row-names'
import type { Separator } from '#lib/importing/sniff-separator'
import { counted, listed } from '#words/amounts'
import { midSentence } from '#words/capital'

/** What each kind of file is called, and what one row of it stands for. */
export const kindWords: Record<ImportKind, { title: string; row: string; tells: string }> = sayings({
  places: {
    title: 'Places',
    row: 'a place',
    tells: 'Rooms, cabinets, drawers, boxes, bags: their labels and what stands inside what.',
  },
  threads: {
    title: 'Threads held',
    row: 'one thread, of one lot',
    tells: 'Maker, line and code, how many skeins and what part of one, and the drawer they live in.',
  },
  cloth: { title: 'Cloth held', row: 'a piece of cloth', tells: 'Name, count, colour and size of each piece, and where it is.' },
  charts: {
    title: 'Charts',
    row: 'a design in a chart',
    tells: 'Leaflets, booklets, kits and files, with the size and themes of each design in them.',
  },
  lists: {
    title: 'Thread lists',
    row: 'a line of a chart’s key',
    tells: 'Which threads a design asks for, and how many stitches or skeins of each.',
  },
  projects: { title: 'Projects', row: 'one working of a design', tells: 'What is planned, under way or finished, and when.' },
  notions: {
    title: 'Notions',
    row: 'one sort of thing, of one size',
    tells: 'Hoops, frames, needles, scissors, beads, bags: how many there are of each, and where they are kept.',
  },
})

/** "Charts", "Thread lists", in the order in which files that name one another are best brought in. */
export const kindOptions = () => importKinds.map((kind) => ({ value: kind, label: kindWords[kind].title }))

export const layoutWords: Record<SheetLayout, string> = sayings({
  rows: 'rows under headings',
  'drawer-columns': 'a column for each drawer',
  'drawer-rows': 'a row for each drawer',
  'drawer-grid': 'a drawer in each cell',
})

export const separatorWords: Record<Separator, string> = sayings({
  ',': 'comma',
  ';': 'semicolon',
  '\t': 'tab',
  '|': 'upright bar',
})

export const fieldLabel = (kind: ImportKind, field: string): string =>
  (fieldsOf[kind] as Record<string, Field>)[field]?.label ?? field

const longestQuote = 80

const quoted = (raw: string): string => `“${raw.length > longestQuote ? `${raw.slice(0, longestQuote)}…` : raw}”`

/** "a, b or c"; of many the first eight. */
function either(items: readonly string[]): string {
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

const capital = (sentence: string): string => sentence.charAt(0).toUpperCase() + sentence.slice(1)

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
function fieldWords({ field, column }: { field: string | null; column: string | null }, kind: ImportKind): string | null {
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
      return say('{written} is not a number. {accepts}', { written, accepts: accepts(accepted, '12, 12.5 or 1/2') })
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
      return say('{written} is not a length of cloth. {accepts}', { written, accepts: accepts(accepted, '18 in or 45 cm') })
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
      return say('{written} is not a price. {accepts}', { written, accepts: accepts(accepted, '3.60') })
    case 'not-a-colour':
      return say('{written} is not a colour. {accepts}', { written, accepts: accepts(accepted, '#a1b2c3') })
    case 'not-a-thread':
      return say('{written} does not name a thread. {accepts}', { written, accepts: accepts(accepted, 'Maker | Line | Code') })
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

export function describeWarning(warning: RowWarning, kind: ImportKind): string {
  const field = fieldWords(warning, kind)
  const words = warningWords(warning, kind)
  return field === null ? capital(words) : `${field}: ${words}`
}

function warningWords({ kind: warned, raw, accepted }: RowWarning, kind: ImportKind): string {
  const written = quoted(raw)
  const taken = quoted(accepted?.[0] ?? '')
  switch (warned) {
    case 'code-looks-like-date':
      return say(
        '{written} is a date where a code should be. A spreadsheet may well have made it of {either}. It is kept as written: put the code back in the file, as text, before it is brought in.',
        { written, either: either(accepted ?? []) || say('a code such as 3-12') },
      )
    case 'code-looks-like-power':
      return say('{written} looks like a power of ten. A spreadsheet may have made it of a longer code. It is kept as written.', {
        written,
      })
    case 'code-nearly-known':
      return say(
        '{written} is new, but {either} of the same line is known. If they are one colour, put the zeros or dashes back; a code is taken exactly as written.',
        { written, either: either(accepted ?? []) },
      )
    case 'cell-looks-like-formula':
      return say('{written} looks like a formula. It is kept as text, and nothing is worked out.', { written })
    case 'text-became-day':
      return say(
        '{written} is a date, and none belongs here. A spreadsheet may well have made it of {either}. It is kept as written.',
        { written, either: either((accepted ?? []).flatMap((code) => [code, code.replace('-', '/')])) || say('something else') },
      )
    case 'cell-shows-error':
      return say('the cell shows the error {written} and counts as blank.', { written })
    case 'formula-without-answer':
      return say(
        'a formula stands in the cell, and the file does not hold its answer. It counts as blank: open the file where it was made and save it again.',
      )
    case 'formulas-taken':
      return say(
        '{accepted, plural, one {# cell} other {# cells}} of this column filled in by formulas. Nothing is worked out here: what the file last showed is taken.',
        { accepted: Number(accepted?.[0] ?? 1) },
      )
    case 'merged-cells-filled':
      return say(
        'what stands in joined cells is taken for each of the rows they span: {accepted, plural, one {# cell} other {# cells}} filled.',
        { accepted: Number(accepted?.[0] ?? 1) },
      )
    case 'totals-row':
      return say('{written} reads as a sum of other rows and is passed over.', { written })
    case 'headers-again':
      return say('the headings stand here once more, and are passed over.')
    case 'more-codes-than-can-be-told':
      return say('{written} names more threads than can be told of one cell. The first {accepted} are taken.', {
        written,
        accepted: accepted?.[0] ?? '100',
      })
    case 'note-not-kept':
      return say('a note hangs on a cell, and there is nowhere to keep it here: {written}.', { written })
    case 'batch-moved':
      return say(
        'an earlier file had it {quotedPlace}. It is moved to {written}, not added a second time. If there is some in both, say so under “How it is read”.',
        { quotedPlace: quotedPlace(accepted?.[0]), written },
      )
    case 'batch-perhaps-moved':
      return say(
        'an earlier file has the same thread {quotedPlace}. This is taken as more of it, in {written}. If it was moved there, say so under “How it is read”.',
        { quotedPlace: quotedPlace(accepted?.[0]), written },
      )
    case 'date-could-be-two':
      return say('{written} is taken as {date}. If day and month are the other way round, say so under “How it is read”.', {
        written,
        date: dateWords(accepted?.[0]),
      })
    case 'over-assumed':
      return say('{written} does not say over how many threads. Over {accepted} is taken.', {
        written,
        accepted: accepted?.[0] ?? '2',
      })
    case 'strands-assumed':
      return say('no strands are given. {accepted} in the needle is taken.', { accepted: accepted?.[0] ?? '2' })
    case 'weave-assumed':
      return say(
        'nothing says how {written} is woven. {isBlock, select, yes {Block cloth (aida)} other {Single thread (linen, evenweave)}} is taken.',
        { written, isBlock: accepted?.[0] === 'block' },
      )
    case 'dyeing-assumed':
      return say(
        '{written} sounds dyed by hand, and nothing else says how it is dyed. {accepted} is taken, and its lots are kept apart unless a column says otherwise.',
        { written, accepted: capital(accepted?.[0] ?? 'overdyed') },
      )
    case 'count-not-square':
      return say('{written} differs in the two directions. The first figure is taken for both.', { written })
    case 'amount-not-said':
      return say('the file has no column for amounts. Each thread is taken as held, how much is not known.')
    case 'rows-disagree':
      return say('{written} here, and {taken} on other rows that speak of the same. {taken} is taken.', { written, taken })
    case 'repeated-row':
      return say('{written} stands on row {accepted} already, word for word. It counts once.', {
        written,
        accepted: accepted?.[0] ?? '',
      })
    case 'list-incomplete':
      return say(
        'the list {written} lacks {midSentence}, refused below. A list is replaced whole: mend what is missing and bring in all its rows together.',
        { written, midSentence: midSentence(describeRows((accepted ?? []).map(Number))) },
      )
    case 'old-label':
      return say(
        'the old label says {written}; that is {taken} now. {isPlaces, select, yes {Nothing of that place is changed by its old label.} other {It goes there.}}',
        { written, taken, isPlaces: kind === 'places' },
      )
    case 'former-name':
      return say('{written} was merged into {taken}. That is meant.', { written, taken })
    case 'line-assumed':
      return say('no line is given. {taken} is taken{isLists, select, yes { for this thread} other {}}.', {
        taken,
        isLists: kind === 'lists',
      })
  }
}

const quotedPlace = (label: string | undefined): string => (label ? `in ${quoted(label)}` : say('without a place'))

const helpOf = (kind: ImportKind, field: string | null): string =>
  (fieldsOf[kind] as Record<string, Field>)[field ?? '']?.help ?? ''

const dateWords = (iso: string | undefined): string =>
  iso !== undefined && /^\d{4}-\d{2}-\d{2}$/.test(iso) ? formatDate(iso) : (iso ?? '')

const megabytes = (bytes: number): string => `${Math.ceil(bytes / (1024 * 1024))} MB`

const binaryWords = sayings({
  zip: 'This is a zip archive. Take the file out of it first.',
  pdf: 'This is a PDF. Only tables can be brought in: a workbook (xlsx), or a text saved as CSV, TSV or TXT.',
  image: 'This is a picture. Only tables can be brought in: a workbook (xlsx), or a text saved as CSV, TSV or TXT.',
  unknown: 'This is neither a text file nor a workbook. Only tables can be brought in: xlsx, CSV, TSV or TXT.',
})

const workbookWords = sayings({
  xlsx: 'This is a workbook (xlsx). Save it as CSV first, one sheet at a time, in the program it was made with.',
  xls: 'This is a workbook of the old kind (xls). Save it as xlsx first, in the program it was made with.',
  xlsb: 'This is a binary workbook (xlsb). Save it as xlsx first, in the program it was made with.',
  ods: 'This is an OpenDocument workbook (ods). Save it as xlsx first, in the program it was made with.',
  locked: 'This workbook is locked with a password. Save a copy without one first.',
})

const manyWords = sayings({
  parts: 'parts inside it',
  sheets: 'sheets',
  cells: 'cells on one sheet',
  rows: 'rows on one sheet',
  columns: 'columns on one sheet',
})

/** Why nothing was done, and what would help. */
export function describeImportRefusal(refusal: ImportRefused): string {
  switch (refusal.kind) {
    case 'empty':
      return say('The file is empty.')
    case 'too-large':
      return say('The file has {megabytes}; up to {megabytes2} can be brought in at once. Part it in two.', {
        megabytes: megabytes(refusal.bytes),
        megabytes2: megabytes(refusal.mostBytes),
      })
    case 'looks-like-xlsx':
      return workbookWords[refusal.format]
    case 'workbook-broken':
      return say(
        'This workbook is damaged, or is not what its name says. Open it in the program it was made with and save it again.',
      )
    case 'workbook-declares-entities':
      return say('This workbook holds declarations no spreadsheet program writes, which can be used to do harm. It is not read.')
    case 'workbook-swells':
      return say(
        'Unpacked, this workbook would take up more than {mostMegabytes} MB, or far more than its size lets one expect. It is not read.',
        { mostMegabytes: refusal.mostMegabytes },
      )
    case 'workbook-too-many':
      return say('The workbook has more than {most, number} {many}. Part it in two.', {
        most: refusal.most,
        many: manyWords[refusal.what],
      })
    case 'no-such-sheet':
      return say('The workbook has no sheet called {quoted}. There are: {sheets}.', {
        quoted: quoted(refusal.sheet),
        sheets: listed(refusal.sheets.slice(0, 12)),
      })
    case 'workbook-blank':
      return say('Every sheet of this workbook is blank.')
    case 'binary':
      return binaryWords[refusal.format]
    case 'no-rows':
      return say('There are no rows under the headings.')
    case 'too-many-rows':
      return say('There are more than {mostRows, number} rows. Part the file in two.', { mostRows: refusal.mostRows })
    case 'header-row-broken':
      return say('The headings cannot be read: in row {rowNumber} a quotation mark is not closed, {quoted}.', {
        rowNumber: refusal.rowNumber,
        quoted: quoted(refusal.raw),
      })
    case 'too-many-columns':
      return say('The file has {columns, plural, one {# column} other {# columns}}; up to {mostColumns} can be read.', {
        columns: refusal.columns,
        mostColumns: refusal.mostColumns,
      })
    case 'unknown-kind':
      return say('Nothing in the headings says what the rows are. Choose it, and the columns can be told after that.')
    case 'mapping-incomplete':
      return say('Something that is needed has no column yet: {missing}. Say which column holds it, or give one for every row.', {
        missing: listed(refusal.missing),
      })
    case 'no-such-file':
      return say('The file is no longer here: an uploaded file is kept for a day. Choose it again.')
    case 'no-such-import':
      return say('There is no such import.')
    case 'already-undone':
      return say('This was undone already.')
    case 'too-big-a-change':
      return say('{rows, plural, one {# row} other {# rows}} are too many to write at once. Part the file in two.', {
        rows: refusal.rows,
      })
  }
}

const nounWords: Record<string, string> = sayings({
  owner: 'owner',
  place: 'place',
  maker: 'maker',
  line: 'line of thread',
  thread: 'thread',
  standIn: 'stand-in',
  batch: 'batch of thread',
  designer: 'designer',
  theme: 'theme',
  chart: 'chart',
  design: 'design',
  list: 'thread list',
  cloth: 'piece of cloth',
  project: 'project',
  notion: 'notion',
})

/** "1 place", "12 batches of thread". */
export function countedNoun(count: number, noun: string): string {
  const [first = noun, ...rest] = (nounWords[noun] ?? noun).split(' ')
  if (rest[0] === 'of') return [counted(count, first), ...rest].join(' ')
  return counted(count, [first, ...rest].join(' '))
}

type Counts = ImportPlan['counts']

/** "214 new, 3 changed, 1,020 the same, 2 refused"; what there is none of is left out. */
export function describeCounts({ added, changed, same, refused }: Counts): string {
  const figure = (count: number, word: string) => (count > 0 ? [`${numberText(count)} ${word}`] : [])
  const words = [
    ...figure(added, say('new')),
    ...figure(changed, say('changed')),
    ...figure(same, say('the same')),
    ...figure(refused, say('refused')),
  ]
  return words.join(', ') || say('nothing')
}

/** What the button would do; null when there is something to do. */
export function describeNothingToDo({ added, changed, same, refused }: Counts): string | null {
  if (added + changed > 0) return null
  if (refused === 0) return say('Everything in this file is here already; nothing would change.')
  if (same === 0) return say('No row can be brought in as the file is read now. What stands in the way is said below.')
  return say(
    'What could be read is here already; nothing would change. {refused, plural, one {# row} other {# rows}} cannot be brought in, for the reasons below.',
    { refused },
  )
}

export type UndoLeft = { noun: string; why: UndoDone['left'][number]['why']; count: number }

/** What was left by an undo, gathered by noun and reason, most first. */
export function gatherLeft(left: UndoDone['left']): UndoLeft[] {
  const gathered = new Map<string, UndoLeft>()
  for (const { noun, why } of left) {
    const key = `${noun} ${why}`
    gathered.set(key, { noun, why, count: (gathered.get(key)?.count ?? 0) + 1 })
  }
  return [...gathered.values()].sort((one, other) => other.count - one.count || (one.noun < other.noun ? -1 : 1))
}

const whyWords: Record<UndoLeft['why'], string> = sayings({
  'changed-since': 'changed by hand since',
  'in-use': 'something else depends on it now',
})

export const describeLeft = ({ noun, why, count }: UndoLeft): string => `${countedNoun(count, noun)}: ${whyWords[why]}.`

export const describeTakenBack = (takenBack: number): string =>
  takenBack === 0
    ? say('Nothing could be taken back.')
    : say('{takenBack, plural, one {# thing} other {# things}} taken back.', { takenBack })

const encodingNames: Record<string, string> = sayings({
  'utf-8': 'UTF-8',
  'utf-16le': 'UTF-16',
  'utf-16be': 'UTF-16',
  'windows-1252': 'Western European (windows-1252)',
  'windows-1250': 'Central European (windows-1250)',
})

/** @param encoding  null for a workbook */
export function describeEncoding(encoding: string | null, warnings: readonly string[]): string {
  if (encoding === null) return say('Workbook (xlsx)')
  const name = encodingNames[encoding] ?? encoding
  const notes = [
    ...(warnings.includes('encoding-guessed') ? [say('guessed from its letters: look whether accents came out right')] : []),
    ...(warnings.includes('damaged') ? [say('some letters could not be read and stand as �')] : []),
  ]
  return notes.length === 0 ? name : `${name}, ${notes.join('; ')}`
}
