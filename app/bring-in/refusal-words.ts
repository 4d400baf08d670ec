import { say, sayings } from '#language/say'
import type { ImportRefused } from '#lib/db/importing/import-service'
import { listed } from '#words/amounts'
import { quoted } from './row-words'

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
