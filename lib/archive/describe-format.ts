import { type ArchiveTable, archiveTables, type ColumnKind, tablesLeftOut } from './tables'
import { archiveVersion } from './versions'

/** What a column holds, in words. */
export const kindWords: Record<ColumnKind, string> = {
  text: 'text',
  'text?': 'text or null',
  whole: 'a whole number',
  'whole?': 'a whole number or null',
  real: 'a number',
  'real?': 'a number or null',
  'yes-no': 'true or false',
  moment: 'a moment, as 2026-11-30T09:15:00.000Z',
  'moment?': 'a moment, as 2026-11-30T09:15:00.000Z, or null',
  'photo?': 'the name of a photo in uploads/photos, or null',
  file: 'the name of a file in uploads/files',
}

/** What is in an archive, part by part: for its readme and for the page that explains it. */
export const partsSaid: readonly { path: string; says: string }[] = [
  { path: 'readme.txt', says: 'This description.' },
  {
    path: 'manifest.json',
    says: 'The format and its version, when it was made, the revision of the collection, and every other part with its length and SHA-256; the files that were named and not on the disk.',
  },
  {
    path: 'tables/*.jsonl',
    says: 'All rows of all tables, journal and imports and what is removed included: one row a line, as JSON in UTF-8, in the order of their keys.',
  },
  {
    path: 'csv/*.csv',
    says: 'What is there now, as sheets that Bring in reads. For people and spreadsheets: when a collection is brought back, they are not needed.',
  },
  {
    path: 'uploads/photos, uploads/files',
    says: 'Photos, each with a small one beside it, and kept files, under the names the rows have for them.',
  },
]

/** One column with what it holds and what it names. */
export const columnsOf = ({ columns, refersTo }: ArchiveTable): { column: string; says: string }[] =>
  Object.entries(columns).map(([column, kind]) => ({
    column,
    says: refersTo[column] ? `${kindWords[kind]}: the ${refersTo[column]} it names` : kindWords[kind],
  }))

/** The description that goes with every archive, made from the same tables as the archive itself. */
export function describeFormat(): string {
  const parts = partsSaid.map(({ path, says }) => `  ${path}\n      ${says}`)
  const tables = archiveTables.map((table) => {
    const columns = columnsOf(table).map(({ column, says }) => `    ${column}: ${says}`)
    return [`${table.name}: ${table.says}`, `  told apart by ${table.key.join(' and ')}`, ...columns].join('\n')
  })
  const leftOut = Object.entries(tablesLeftOut).map(([table, why]) => `  ${table}: ${why}`)
  return `${[
    'A whole collection of Chart Larder, as one file.',
    'To have it back: start Chart Larder with an empty collection, and under Settings, Take out, choose this file as it is.',
    `This is version ${archiveVersion} of the format. Later versions of Chart Larder read it too.`,
    'It holds prices, notes and names: keep it as you keep the collection, and share lists instead (Lists to share).',
    ['In it:', ...parts].join('\n'),
    'Lengths are whole numbers in the unit the name ends in: Um, micrometres; StrandTenths, tenths of a millimetre of one strand; PriceMinor, hundredths of the currency in Settings. Names that end in Key are texts folded for comparison.',
    ['Not in it:', ...leftOut].join('\n'),
    'The tables, each after those its rows name:',
    ...tables,
  ].join('\n\n')}\n`
}
