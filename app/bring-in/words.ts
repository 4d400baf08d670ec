import { formatDate } from '#language/day'
import { numberText } from '#language/figures'
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
export const kindWords: Record<ImportKind, { title: string; row: string; tells: string }> = {
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
}

/** "Charts", "Thread lists", in the order in which files that name one another are best brought in. */
export const kindOptions = importKinds.map((kind) => ({ value: kind, label: kindWords[kind].title }))

export const layoutWords: Record<SheetLayout, string> = {
  rows: 'rows under headings',
  'drawer-columns': 'a column for each drawer',
  'drawer-rows': 'a row for each drawer',
  'drawer-grid': 'a drawer in each cell',
}

export const separatorWords: Record<Separator, string> = { ',': 'comma', ';': 'semicolon', '\t': 'tab', '|': 'upright bar' }

export const fieldLabel = (kind: ImportKind, field: string): string =>
  (fieldsOf[kind] as Record<string, Field>)[field]?.label ?? field

const longestQuote = 80

const quoted = (raw: string): string => `“${raw.length > longestQuote ? `${raw.slice(0, longestQuote)}…` : raw}”`

/** "a, b or c"; of many the first eight. */
function either(items: readonly string[]): string {
  const shown = items.filter((item) => item !== '').slice(0, 8)
  return shown.length < 2 ? (shown[0] ?? '') : `${shown.slice(0, -1).join(', ')} or ${shown.at(-1)}`
}

const accepts = (accepted: readonly string[] | undefined, usual: string): string =>
  `${either(accepted ?? []) || usual} would be accepted.`

const among = (accepted: readonly string[] | undefined): string => {
  const words = either(accepted ?? [])
  return words === '' ? '' : `: ${words}`
}

const perhaps = (near: readonly string[] | undefined, otherwise: string): string => {
  const words = either(near ?? [])
  return words === '' ? otherwise : `Is it ${words}?`
}

const capital = (sentence: string): string => sentence.charAt(0).toUpperCase() + sentence.slice(1)

/** "Row 4", "Rows 4, 5 and 9", "Rows 4, 5, 6 and 120 more"; "Cells B7 and C2" of a sheet whose cells are drawers. */
export function describeRows(rowNumbers: readonly number[], layout: SheetLayout = 'rows'): string {
  const shown = rowNumbers.slice(0, 6).map((number) => (layout === 'rows' ? String(number) : placeName(number)))
  const more = rowNumbers.length - shown.length
  const items = more > 0 ? [...shown, `${numberText(more)} more`] : shown
  if (layout !== 'rows') return `${rowNumbers.length === 1 ? 'At' : 'At cells'} ${listed(items)}`
  return `${rowNumbers.length === 1 ? 'Row' : 'Rows'} ${listed(items)}`
}

/** What is said of a whole row of drawers goes by the row's own number, which is far below that of any cell. */
const placeName = (number: number): string => (number < leastCellNumber ? `row ${number}` : cellName(number))

/** `Count (column “Ct”)`: the field, and the file's own word for it where that is another. */
function fieldWords({ field, column }: { field: string | null; column: string | null }, kind: ImportKind): string | null {
  if (field === null) return column
  const label = fieldLabel(kind, field)
  return column === null || column.toLowerCase() === label.toLowerCase() ? label : `${label} (column “${column}”)`
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
      return `a quotation mark opens and is never closed: ${written}. Close it, or take it out.`
    case 'stray-quote':
      return `a quotation mark stands where none belongs: ${written}. Write it twice, or take it out.`
    case 'more-cells-than-headers':
      return `there are more cells than headings: ${written}. A text with the separator in it has to stand in quotation marks.`
    case 'cell-too-long':
      return `a cell is too long to be read: ${written}. Shorten it.`
    case 'missing':
      return error.column === null
        ? 'the file has no column for it, and it is needed. Choose a column, or give one for every row.'
        : `the cell is blank, and it is needed. ${helpOf(kind, error.field)}`
    case 'not-a-number':
      return `${written} is not a number. ${accepts(accepted, '12, 12.5 or 1/2')}`
    case 'not-a-whole-number':
      return `${written} is not a whole number. ${accepts(accepted, '12')}`
    case 'out-of-range':
      return accepted?.length === 2
        ? `${written} is out of range. Anything from ${accepted[0]} to ${accepted[1]} would be accepted.`
        : `${written} is too little or too much to be right. Another unit may have been meant; 8 m or 18 in, with the unit, would be accepted.`
    case 'unknown-word':
      return `${written} is not a word known here. ${accepts(accepted, helpOf(kind, error.field))}`
    case 'not-yes-or-no':
      return `${written} is neither yes nor no. ${accepts(accepted, 'yes or no')}`
    case 'not-a-thread-length':
      return `${written} is not a length of thread. ${accepts(accepted, '8 m or 5 yd')}`
    case 'not-a-cloth-length':
      return `${written} is not a length of cloth. ${accepts(accepted, '18 in or 45 cm')}`
    case 'not-a-size':
      return `${written} is not a size. ${accepts(accepted, '140 x 98')}`
    case 'not-a-count':
      return `${written} is not a count. ${accepts(accepted, '28')}`
    case 'not-a-part':
      return `${written} is not a part of a skein. ${accepts(accepted, '2.5 m, 1/2 or some')}`
    case 'not-a-date':
      return `${written} is not a date. ${accepts(accepted, '2026-03-01')}`
    case 'not-a-price':
      return `${written} is not a price. ${accepts(accepted, '3.60')}`
    case 'not-a-colour':
      return `${written} is not a colour. ${accepts(accepted, '#a1b2c3')}`
    case 'not-a-thread':
      return `${written} does not name a thread. ${accepts(accepted, 'Maker | Line | Code')}`
    case 'too-long':
      return `the text is longer than ${accepted?.[0] ?? '300'} letters: ${written}. Shorten it.`
    case 'half-a-size':
      return 'only one of width and height is given. Give both, or neither.'
    case 'half-a-colour':
      return 'L, a and b belong together, and one of them is blank. Give all three, or none.'
    case 'mixed-units':
      return `${written} is in another unit than the width. Give both in stitches, or both in inches or centimetres.`
    case 'blend-parts-differ':
      return accepted?.length
        ? `${written} has another number of parts than the code, which has ${accepted[0]}. Give one for all, or one for each, parted by +.`
        : `${written} has a blank part. Give each thread of the blend its code, parted by +.`
    case 'part-given-twice':
      return `the part skein is given twice, ${written}: as a fraction of the skeins and on its own. Keep one.`
    case 'dates-out-of-order':
      return `${written} is before the day it was begun, ${dateWords(accepted?.[0])}. A later day, or none, would be accepted.`
    case 'unknown-design':
      return `${written} is not among the charts. ${perhaps(accepted, 'Bring in its chart first.')}`
    case 'which-design':
      if (error.field === 'design') return `${written} holds several designs${among(accepted)}. Say which under Design.`
      return `${written} is in more than one chart${among(accepted)}. ${
        kind === 'lists'
          ? 'Say whose under Designer.'
          : 'Say which under Chart; if they bear one title, rename one of them here first.'
      }`
    case 'which-chart':
      return `${written} could be more than one chart${among(accepted)}. Say which under Kind and Designer.`
    case 'unknown-list':
      return `the design has no thread list called ${written}. ${perhaps(accepted, 'Bring in its thread list first.')}`
    case 'unknown-cloth':
      return `no piece of cloth of this owner is labelled ${written}. ${perhaps(accepted, 'Bring in the cloth first, or leave the cell blank.')}`
    case 'which-line':
      return `${written} is a code in more than one line of this maker${among(accepted)}. Say which under Line.`
    case 'inside-itself':
      return `put inside ${written}, the place would stand inside itself. Another place, or none, would be accepted.`
    case 'repeated-label':
      return accepted?.length
        ? `the label ${written} stands on ${midSentence(describeRows(accepted.map(Number)))} too, and the rows differ. Two pieces cannot share one label.`
        : `the label ${written} is on another piece already. Two pieces cannot share one label.`
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
      return `${written} is a date where a code should be. A spreadsheet may well have made it of ${either(accepted ?? []) || 'a code such as 3-12'}. It is kept as written: put the code back in the file, as text, before it is brought in.`
    case 'code-looks-like-power':
      return `${written} looks like a power of ten. A spreadsheet may have made it of a longer code. It is kept as written.`
    case 'code-nearly-known':
      return `${written} is new, but ${either(accepted ?? [])} of the same line is known. If they are one colour, put the zeros or dashes back; a code is taken exactly as written.`
    case 'cell-looks-like-formula':
      return `${written} looks like a formula. It is kept as text, and nothing is worked out.`
    case 'text-became-day':
      return `${written} is a date, and none belongs here. A spreadsheet may well have made it of ${either((accepted ?? []).flatMap((code) => [code, code.replace('-', '/')])) || 'something else'}. It is kept as written.`
    case 'cell-shows-error':
      return `the cell shows the error ${written} and counts as blank.`
    case 'formula-without-answer':
      return 'a formula stands in the cell, and the file does not hold its answer. It counts as blank: open the file where it was made and save it again.'
    case 'formulas-taken':
      return `${counted(Number(accepted?.[0] ?? 1), 'cell')} of this column filled in by formulas. Nothing is worked out here: what the file last showed is taken.`
    case 'merged-cells-filled':
      return `what stands in joined cells is taken for each of the rows they span: ${counted(Number(accepted?.[0] ?? 1), 'cell')} filled.`
    case 'totals-row':
      return `${written} reads as a sum of other rows and is passed over.`
    case 'headers-again':
      return 'the headings stand here once more, and are passed over.'
    case 'more-codes-than-can-be-told':
      return `${written} names more threads than can be told of one cell. The first ${accepted?.[0] ?? '100'} are taken.`
    case 'note-not-kept':
      return `a note hangs on a cell, and there is nowhere to keep it here: ${written}.`
    case 'batch-moved':
      return `an earlier file had it ${quotedPlace(accepted?.[0])}. It is moved to ${written}, not added a second time. If there is some in both, say so under “How it is read”.`
    case 'batch-perhaps-moved':
      return `an earlier file has the same thread ${quotedPlace(accepted?.[0])}. This is taken as more of it, in ${written}. If it was moved there, say so under “How it is read”.`
    case 'date-could-be-two':
      return `${written} is taken as ${dateWords(accepted?.[0])}. If day and month are the other way round, say so under “How it is read”.`
    case 'over-assumed':
      return `${written} does not say over how many threads. Over ${accepted?.[0] ?? '2'} is taken.`
    case 'strands-assumed':
      return `no strands are given. ${accepted?.[0] ?? '2'} in the needle is taken.`
    case 'weave-assumed':
      return `nothing says how ${written} is woven. ${accepted?.[0] === 'block' ? 'Block cloth (aida)' : 'Single thread (linen, evenweave)'} is taken.`
    case 'dyeing-assumed':
      return `${written} sounds dyed by hand, and nothing else says how it is dyed. ${capital(accepted?.[0] ?? 'overdyed')} is taken, and its lots are kept apart unless a column says otherwise.`
    case 'count-not-square':
      return `${written} differs in the two directions. The first figure is taken for both.`
    case 'amount-not-said':
      return 'the file has no column for amounts. Each thread is taken as held, how much is not known.'
    case 'rows-disagree':
      return `${written} here, and ${taken} on other rows that speak of the same. ${taken} is taken.`
    case 'repeated-row':
      return `${written} stands on row ${accepted?.[0] ?? ''} already, word for word. It counts once.`
    case 'list-incomplete':
      return `the list ${written} lacks ${midSentence(describeRows((accepted ?? []).map(Number)))}, refused below. A list is replaced whole: mend what is missing and bring in all its rows together.`
    case 'old-label':
      return `the old label says ${written}; that is ${taken} now. ${kind === 'places' ? 'Nothing of that place is changed by its old label.' : 'It goes there.'}`
    case 'former-name':
      return `${written} was merged into ${taken}. That is meant.`
    case 'line-assumed':
      return `no line is given. ${taken} is taken${kind === 'lists' ? ' for this thread' : ''}.`
  }
}

const quotedPlace = (label: string | undefined): string => (label ? `in ${quoted(label)}` : 'without a place')

const helpOf = (kind: ImportKind, field: string | null): string =>
  (fieldsOf[kind] as Record<string, Field>)[field ?? '']?.help ?? ''

const dateWords = (iso: string | undefined): string =>
  iso !== undefined && /^\d{4}-\d{2}-\d{2}$/.test(iso) ? formatDate(iso) : (iso ?? '')

const megabytes = (bytes: number): string => `${Math.ceil(bytes / (1024 * 1024))} MB`

const binaryWords = {
  zip: 'This is a zip archive. Take the file out of it first.',
  pdf: 'This is a PDF. Only tables can be brought in: a workbook (xlsx), or a text saved as CSV, TSV or TXT.',
  image: 'This is a picture. Only tables can be brought in: a workbook (xlsx), or a text saved as CSV, TSV or TXT.',
  unknown: 'This is neither a text file nor a workbook. Only tables can be brought in: xlsx, CSV, TSV or TXT.',
}

const workbookWords = {
  xlsx: 'This is a workbook (xlsx). Save it as CSV first, one sheet at a time, in the program it was made with.',
  xls: 'This is a workbook of the old kind (xls). Save it as xlsx first, in the program it was made with.',
  xlsb: 'This is a binary workbook (xlsb). Save it as xlsx first, in the program it was made with.',
  ods: 'This is an OpenDocument workbook (ods). Save it as xlsx first, in the program it was made with.',
  locked: 'This workbook is locked with a password. Save a copy without one first.',
}

const manyWords = {
  parts: 'parts inside it',
  sheets: 'sheets',
  cells: 'cells on one sheet',
  rows: 'rows on one sheet',
  columns: 'columns on one sheet',
}

/** Why nothing was done, and what would help. */
export function describeImportRefusal(refusal: ImportRefused): string {
  switch (refusal.kind) {
    case 'empty':
      return 'The file is empty.'
    case 'too-large':
      return `The file has ${megabytes(refusal.bytes)}; up to ${megabytes(refusal.mostBytes)} can be brought in at once. Part it in two.`
    case 'looks-like-xlsx':
      return workbookWords[refusal.format]
    case 'workbook-broken':
      return 'This workbook is damaged, or is not what its name says. Open it in the program it was made with and save it again.'
    case 'workbook-declares-entities':
      return 'This workbook holds declarations no spreadsheet program writes, which can be used to do harm. It is not read.'
    case 'workbook-swells':
      return `Unpacked, this workbook would take up more than ${refusal.mostMegabytes} MB, or far more than its size lets one expect. It is not read.`
    case 'workbook-too-many':
      return `The workbook has more than ${numberText(refusal.most)} ${manyWords[refusal.what]}. Part it in two.`
    case 'no-such-sheet':
      return `The workbook has no sheet called ${quoted(refusal.sheet)}. There are: ${listed(refusal.sheets.slice(0, 12))}.`
    case 'workbook-blank':
      return 'Every sheet of this workbook is blank.'
    case 'binary':
      return binaryWords[refusal.format]
    case 'no-rows':
      return 'There are no rows under the headings.'
    case 'too-many-rows':
      return `There are more than ${numberText(refusal.mostRows)} rows. Part the file in two.`
    case 'header-row-broken':
      return `The headings cannot be read: in row ${refusal.rowNumber} a quotation mark is not closed, ${quoted(refusal.raw)}.`
    case 'too-many-columns':
      return `The file has ${counted(refusal.columns, 'column')}; up to ${refusal.mostColumns} can be read.`
    case 'unknown-kind':
      return 'Nothing in the headings says what the rows are. Choose it, and the columns can be told after that.'
    case 'mapping-incomplete':
      return `Something that is needed has no column yet: ${listed(refusal.missing)}. Say which column holds it, or give one for every row.`
    case 'no-such-file':
      return 'The file is no longer here: an uploaded file is kept for a day. Choose it again.'
    case 'no-such-import':
      return 'There is no such import.'
    case 'already-undone':
      return 'This was undone already.'
    case 'too-big-a-change':
      return `${counted(refusal.rows, 'row')} are too many to write at once. Part the file in two.`
  }
}

const nounWords: Record<string, string> = {
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
}

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
    ...figure(added, 'new'),
    ...figure(changed, 'changed'),
    ...figure(same, 'the same'),
    ...figure(refused, 'refused'),
  ]
  return words.join(', ') || 'nothing'
}

/** What the button would do; null when there is something to do. */
export function describeNothingToDo({ added, changed, same, refused }: Counts): string | null {
  if (added + changed > 0) return null
  if (refused === 0) return 'Everything in this file is here already; nothing would change.'
  if (same === 0) return 'No row can be brought in as the file is read now. What stands in the way is said below.'
  return `What could be read is here already; nothing would change. ${counted(refused, 'row')} cannot be brought in, for the reasons below.`
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

const whyWords: Record<UndoLeft['why'], string> = {
  'changed-since': 'changed by hand since',
  'in-use': 'something else depends on it now',
}

export const describeLeft = ({ noun, why, count }: UndoLeft): string => `${countedNoun(count, noun)}: ${whyWords[why]}.`

export const describeTakenBack = (takenBack: number): string =>
  takenBack === 0 ? 'Nothing could be taken back.' : `${counted(takenBack, 'thing')} taken back.`

const encodingNames: Record<string, string> = {
  'utf-8': 'UTF-8',
  'utf-16le': 'UTF-16',
  'utf-16be': 'UTF-16',
  'windows-1252': 'Western European (windows-1252)',
  'windows-1250': 'Central European (windows-1250)',
}

/** @param encoding  null for a workbook */
export function describeEncoding(encoding: string | null, warnings: readonly string[]): string {
  if (encoding === null) return 'Workbook (xlsx)'
  const name = encodingNames[encoding] ?? encoding
  const notes = [
    ...(warnings.includes('encoding-guessed') ? ['guessed from its letters: look whether accents came out right'] : []),
    ...(warnings.includes('damaged') ? ['some letters could not be read and stand as \ufffd'] : []),
  ]
  return notes.length === 0 ? name : `${name}, ${notes.join('; ')}`
}
